// Brings an answer to the screen: morphs <main>, keeps the filter, fills what comes later.
import {Idiomorph} from "./idiomorph.js";

export const byId = (id) => document.getElementById(id);

/** Morph the inside of an element into `html`. */
export function morph(element, html) {
  Idiomorph.morph(element, html, {
    morphStyle: "innerHTML",
    ignoreActiveValue: true,
    callbacks: {beforeNodeMorphed: leavesWhatComesLater},
  });
}

/** What is filled after the repaint stays as it is until its own answer comes. */
function leavesWhatComesLater(old, fresh) {
  const same = old.dataset?.later && old.dataset.later === fresh.dataset?.later;
  if (!same || fresh.childNodes.length) return true;
  if (old.dataset.still === undefined) old.setAttribute("aria-busy", "true"); // filled by a press, not by each repaint
  return false;
}

/** Fill the parts of a late answer, by their name. */
export function fillParts(parts) {
  for (const [name, html] of Object.entries(parts)) {
    for (const place of document.querySelectorAll(`[data-later="${name}"]`)) {
      morph(place, html);
      place.removeAttribute("aria-busy");
    }
  }
}

/** Say one sentence to those who listen; a loud one is shown as well, for a while. */
export function say(sentence, isLoud = false) {
  const place = byId("status");
  place.textContent = sentence;
  place.toggleAttribute("data-loud", isLoud && sentence !== "");
}

/** Show only items that hold every word. */
export function applyFilter(text = "") {
  const words = text.toLowerCase().split(/\s+/).filter(Boolean);
  for (const item of document.querySelectorAll("[data-words]")) {
    item.hidden = !words.every((word) => item.dataset.words.includes(word));
  }
  for (const group of document.querySelectorAll("[data-group]")) {
    group.hidden = !group.querySelector("[data-words]:not([hidden])");
  }
  for (const note of document.querySelectorAll("[data-nothing]")) {
    note.hidden = Boolean(document.querySelector("[data-words]:not([hidden])"));
  }
}

/** Measure from a press to the paint that answers it, then go on. */
export function afterRepaint(pressed, next) {
  requestAnimationFrame(() => setTimeout(() => {
    if (pressed) performance.measure("answer-to-repaint", {start: pressed, end: performance.now()});
    next();
  }));
}
