// Several readings in one go: enters what was confirmed, each as an answer of its own; the lines
// that were left out stay in the box.
import {byId, say} from "./screen.js";
import {localTime} from "./device.js";

export const severalActs = (desk) => ({
  "enter-several": async () => {
    const rows = [...document.querySelectorAll("[data-line]")].map((row) => ({
      line: row.dataset.line,
      value: row.querySelector("select").value,
    }));
    const chosen = rows.filter(({value}) => value).map(({value}) => JSON.parse(value));
    const entered = new Set(rows.filter(({value}) => value).map(({line}) => line));
    const left = byId("lines").value.split("\n").filter((line) => !entered.has(line.trim().split(/\s+/).join(" ")));
    const at = localTime();
    const inputs = chosen.map((answer) => ({do: "answer", ...answer, at}));
    const case_ = desk.current();
    Object.assign(case_, {log: {...case_.log, inputs: [...case_.log.inputs, ...inputs]}, undone: []});
    await desk.show({...desk.view(), screen: "bench", check: null, lines: left.join("\n").trim()}, "check-title");
    say(`${inputs.length} ${inputs.length === 1 ? "reading" : "readings"} entered.`, true);
    await desk.save();
  },
});
