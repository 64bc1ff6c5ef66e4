// What the help desk and the owner do with letters: copy, share, read answers off the screen.
import {forgetLink, pageAddress} from "./links.js";
import {byId} from "./screen.js";
import {keepSheet} from "./sheets.js";

document.addEventListener("change", ({target}) => {
  if (target.dataset.answer && byId("fill")) keepSheet(location.hash, answersOnScreen());
});

/** Return the acts about letters and links. */
export const letterActs = (desk) => ({
  "write-owner": () => {
    desk.say("Choosing what to ask. This takes some seconds.", true);
    const place = {case_id: desk.current().id, base: pageAddress()};
    return desk.show({...fresh, screen: "desk", ...place}, "title");
  },
  "copy-letter": async ({sends}) => {
    await desk.copy(byId("letter").value, "The text is on the clipboard.");
    return noteAsSent(desk, sends, "copy-letter");
  },
  "share-letter": async ({sends}) => {
    const text = byId("letter").value;
    if (!navigator.share) await desk.copy(text, "This browser cannot share. The text is on the clipboard instead.");
    else if (!await shared(text)) return undefined;
    return noteAsSent(desk, sends, "share-letter");
  },
  "copy-case-link": () => desk.copy(byId("case-link").value, "The link is on the clipboard."),
  "enter-reply": () => {
    const answers = Object.entries(answersOnScreen());
    if (!answers.length) return desk.say("Nothing is chosen yet: choose an answer, or tick one.", true);
    const reply = {do: "reply", text: desk.view().reply, answers};
    turn(desk, "waiting", "open");
    return desk.put(reply, {...desk.view(), ...fresh, screen: "bench"}, "title");
  },
  "fill-sheet": () => {
    const view = {...desk.view(), answers: answersOnScreen(), is_filled: true};
    return desk.show(view).then(() => (byId("letter-title") ?? document.querySelector("main .wrong"))?.focus());
  },
  "open-linked": async () => {
    const {log} = await desk.ask("desk-log", {text: desk.view().link});
    forgetLink();
    return desk.begin(log.family, log.inputs, {screen: "bench"});
  },
  "leave-linked": () => {
    forgetLink();
    return desk.show({screen: "home"}, "title");
  },
});

const fresh = {left_out: [], is_anew: false, reply: "", has_qr: false, link: "", answers: {}, check: null};

/** Once questions are on their way, the case knows which, and by which numbers. */
async function noteAsSent(desk, sends, focus) {
  if (!sends) return;
  turn(desk, "open", "waiting");
  await desk.put(JSON.parse(sends), {...desk.view(), is_anew: false, left_out: []}, focus);
}

/** Turn the status of the case on the shelf, if it is still the one it would be by itself. */
function turn(desk, from, to) {
  const now = desk.current();
  if ((now.status ?? "open") === from) desk.take({...now, status: to});
}

/** Let the device share a text; false when the person thought better of it. */
async function shared(text) {
  try {
    await navigator.share({text});
    return true;
  } catch (problem) {
    if (problem.name === "AbortError") return false;
    throw problem;
  }
}

/** Return what is chosen on screen, by check; what is empty is left out. */
function answersOnScreen() {
  const fields = [...document.querySelectorAll("main [data-answer]")];
  const chosen = fields.filter((field) => (["radio", "checkbox"].includes(field.type) ? field.checked : field.value.trim()));
  return Object.fromEntries(chosen.map((field) => [field.dataset.answer, field.value.trim()]));
}
