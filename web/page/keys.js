// Keys: a digit answers, N passes, G goes to the next screen; arrows walk the drawing. Never while typing, and
// never on a control that was reached by the keyboard; they can be switched off for good.
import {byId, say} from "./screen.js";

const KEPT = "dryjoint-keys";
const FIELDS = "input:not([type=checkbox]), select, textarea, [contenteditable]";
const CONTROLS = "button, a, summary, input:not([type=checkbox]), [role=button]";
const root = document.documentElement;
const isOff = () => root.dataset.keys === "off";
let answeredByKey = false; // then the next field takes the focus

const PRESSES = {
  n: () => byId("cannot"),
  u: () => byId("undo"),
  s: () => byId("not-so"),
  m: () => byId("make-it-so"),
};
const SCREENS = {g: 1, b: -1}; // steps along the row of screens
const PLACES = {c: ".cause-title", f: "#findings button", d: ".drawing [data-block][tabindex='0']"};

/** Carry out a single key, unless it belongs to a field or a control. */
function hearKey(event) {
  if (event.defaultPrevented || event.ctrlKey || event.altKey || event.metaKey) return;
  const {target, key} = event;
  if (key === "Escape" && isInside(target)) return leave(target);
  if (key === "Enter" && target.id === "reading") answeredByKey = true;
  if (target.closest?.("[data-block]")) return walk(event);
  if (isOff() || target.matches(FIELDS) || target.closest("dialog")) return;
  if (target.closest(CONTROLS)?.matches(":focus-visible")) return;
  const pressed = /^[1-9]$/.test(key) ? nthAnswer(Number(key)) : PRESSES[key.toLowerCase()]?.();
  if (pressed && !pressed.disabled) {
    event.preventDefault();
    answeredByKey = true;
    document.activeElement?.blur(); // else the heading, focused already, would tell nobody
    pressed.click();
  } else if (SCREENS[key.toLowerCase()]) {
    document.activeElement?.blur();
    neighbour(SCREENS[key.toLowerCase()])?.click();
  } else if (PLACES[key.toLowerCase()]) {
    document.querySelector(PLACES[key.toLowerCase()])?.focus();
  } else if (OPENS[key]) {
    event.preventDefault();
    OPENS[key]();
  }
}

/** Whether Escape leads out: of a field, or of a part of the screen while no word is explained. */
function isInside(target) {
  if (!target.closest("main")) return false;
  return target.matches(FIELDS) || !document.querySelector(":popover-open");
}

function nthAnswer(number) {
  return document.querySelectorAll("#check .outcomes .answer")[number - 1];
}

/** Return the button of the screen so many steps on from the one on show. */
function neighbour(steps) {
  const row = [...document.querySelectorAll(".steps button")];
  const here = row.findIndex((button) => button.hasAttribute("aria-current"));
  return here < 0 ? undefined : row[here + steps];
}

function leave(field) {
  field.blur();
  (byId("check-title") ?? byId("title"))?.focus();
}

function open(id, field) {
  const place = byId(id);
  if (!place) return;
  place.open = true;
  byId(field)?.focus();
}

const OPENS = {
  "?": () => open("keys", "keys-title"),
  "/": () => (byId("filter") ? byId("filter").focus() : open("several", "lines")),
  r: () => byId("reading")?.focus(),
};

/** After an answer by key the field of the next reading takes the focus, not its heading. */
function hearFocus({target}) {
  if (target.id !== "check-title" || !answeredByKey) return;
  answeredByKey = false;
  if (!isOff()) byId("reading")?.focus();
}

// ---- the drawing: one stop of the tab key, arrows go to the nearest block that way

const WAYS = {ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1]};

function walk(event) {
  const here = event.target.closest("[data-block]");
  if (event.key === "Enter" || event.key === " ") {
    event.preventDefault();
    here.dispatchEvent(new MouseEvent("click", {bubbles: true}));
    return;
  }
  const way = WAYS[event.key];
  if (!way) return;
  event.preventDefault();
  const next = nearest(here, way);
  if (!next) return;
  here.setAttribute("tabindex", "-1");
  next.setAttribute("tabindex", "0");
  next.focus();
}

/** Return the nearest block in a direction; what lies aside counts twice. */
function nearest(here, [right, down]) {
  const middle = (block) => {
    const {x, y, width, height} = block.getBoundingClientRect();
    return [x + width / 2, y + height / 2];
  };
  const [x, y] = middle(here);
  let best = [Infinity, null];
  for (const block of document.querySelectorAll(".drawing [data-block]")) {
    const [dx, dy] = middle(block).map((at, axis) => at - [x, y][axis]);
    const along = dx * right + dy * down;
    const far = along + 2 * Math.abs(dx * down + dy * right);
    if (along > 1 && far < best[0]) best = [far, block];
  }
  return best[1];
}

// ---- switching

function setKeys(state) {
  root.dataset.keys = state;
  try {
    localStorage.setItem(KEPT, state);
  } catch { /* a browser that keeps nothing forgets it, too */ }
}

export const keysActs = () => ({
  "keys-off": () => { setKeys("off"); say("Single keys are off.", true); },
  "keys-on": () => { setKeys("on"); say("Single keys are on.", true); },
});

/** Begin to listen. */
export function beginKeys() {
  try {
    root.dataset.keys = localStorage.getItem(KEPT) ?? "on";
  } catch {
    root.dataset.keys = "on";
  }
  document.addEventListener("keydown", hearKey);
  document.addEventListener("focusin", hearFocus);
}
