// Several windows on the same cases: who has which open, who wrote last. Nothing is overwritten in
// silence: whoever comes second is told, and takes the case over or goes on with a copy.
import {keptCase} from "./cases.js";
import {copied} from "./records.js";
import {byId, say} from "./screen.js";

const channel = "BroadcastChannel" in window ? new BroadcastChannel("dryjoint-cases") : null;

const WORDS = {
  also: "This case is open in another window as well. What you enter in one is not seen in the other until it is taken over there.",
  changed: "Another window went on with this case. What is here is older than what is kept.",
  behind: "Another window went on with this case, so your last entry here was not kept. Nothing was overwritten. "
    + "Take the case over as it is kept (Redo then brings your own entries), or keep what is here as a second case.",
  taken: "Another window took this case over.",
};

let told = null; // {id, why} of the notice on show

/** Tell the other windows about a case. */
export function tellWindows(what, {id, revision}) {
  channel?.postMessage({what, id, revision});
}

/** Show why the case on screen may not be the whole of it. */
export function warn(why, id) {
  told = {id, why};
  byId("windows-words").textContent = WORDS[why];
  byId("windows").hidden = false;
}

/** Take the notice away, unless it is about the case that is (still) on screen. */
export function calm(id) {
  if (told?.id === id) return;
  told = null;
  byId("windows").hidden = true;
}

function settle() {
  told = null;
  byId("windows").hidden = true;
}

/** Hear other windows; `desk` gives and takes the case on screen. */
export function hearWindows(desk) {
  channel?.addEventListener("message", ({data: {what, id, revision}}) => {
    const mine = desk.current();
    if (id !== mine?.id) return undefined;
    if (what === "open") tellWindows("here", mine);
    if (what === "open" || what === "here") return warn("also", id);
    if (what === "taken") return warn("taken", id);
    return revision > mine.revision ? warn("changed", id) : undefined;
  });
}

export const windowActs = (desk) => ({
  "take-over": async () => {
    const mine = desk.current();
    const stored = await keptCase(mine.id);
    if (!stored) return keepSecond(desk, mine);
    desk.take({...stored, undone: extra(mine, stored) ?? stored.undone});
    settle();
    tellWindows("taken", stored);
    await desk.repaint();
    return say("You go on with the case as it is kept.", true);
  },
  "work-on-copy": () => keepSecond(desk, desk.current()),
});

async function keepSecond(desk, mine) {
  desk.take(copied(mine, `${mine.title || "Case"} (second window)`));
  settle();
  await desk.save();
  await desk.repaint();
  return say("You go on with a second case; the first stays as it is kept.", true);
}

/** Return what was entered only here, the first on top, as Redo takes it; null when nothing was. */
function extra(mine, stored) {
  const [ours, theirs] = [mine, stored].map(({log}) => log.inputs.map((input) => JSON.stringify(input)));
  const apart = ours.findIndex((input, at) => input !== theirs[at]);
  return apart < 0 ? null : mine.log.inputs.slice(apart).reverse();
}
