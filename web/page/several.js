// Several readings in one go: enters what was confirmed, each as an answer of its own; the lines
// that were left out stay in the box.
import {byId, say} from "./screen.js";
import {localTime} from "./device.js";

/** Put several inputs into the case at once, show it, keep it. */
export async function enterAll(desk, inputs, nextView, focus) {
  const at = localTime();
  const now = desk.current();
  const log = {...now.log, inputs: [...now.log.inputs, ...inputs.map((input) => ({...input, at}))]};
  Object.assign(now, {log, undone: []});
  await desk.show(nextView, focus);
  await desk.save();
}

export const severalActs = (desk) => ({
  "enter-all": ({inputs}) => enterAll(desk, JSON.parse(inputs), {...desk.view(), screen: "bench", check: null}, "check-title"),
  "enter-several": async () => {
    const rows = [...document.querySelectorAll("[data-line]")].map((row) => ({
      line: row.dataset.line,
      value: row.querySelector("select").value,
    }));
    const chosen = rows.filter(({value}) => value).map(({value}) => JSON.parse(value));
    const entered = new Set(rows.filter(({value}) => value).map(({line}) => line));
    const left = byId("lines").value.split("\n").filter((line) => !entered.has(line.trim().split(/\s+/).join(" ")));
    const inputs = chosen.map((answer) => ({do: "answer", ...answer}));
    const nextView = {...desk.view(), screen: "bench", check: null, lines: left.join("\n").trim()};
    await enterAll(desk, inputs, nextView, "check-title");
    say(`${inputs.length} ${inputs.length === 1 ? "reading" : "readings"} entered.`, true);
  },
});
