// The record of a case as this browser keeps it, in a format of its own:
// 1: {id, log, undone, changed, used}
// 2: and {format, title, owner, status, next, notes, opened, closed, deleted, line, revision}
// `line` is what the shelf showed of it last; `revision` counts how often it was written.
// Fields this version does not know stay where they are: a later one may.
import {localTime} from "./device.js";

export const FORMAT = 2;
const BLANK = {undone: [], title: "", owner: "", status: "open", next: "", notes: "", closed: null, deleted: "", line: null, revision: 0};

/** Say whether a newer version of the page wrote a record, so that it can only be left alone. */
export const isNewer = (record) => (record.format ?? 1) > FORMAT;

/** Return a record in the format of today; one of a newer version as it is. */
export function upgraded(record) {
  if (isNewer(record)) return record;
  const times = [record.opened, record.log.inputs.find(({at}) => at)?.at, record.changed];
  return {...BLANK, ...record, opened: times.find(Boolean) ?? "", format: FORMAT};
}

/** Return what people wrote about a case, for one that takes its place. */
export const aboutOf = ({title, owner, status, next, notes, opened}) => ({title, owner, status, next, notes, opened});

/** Return the record of a case that begins now; `more` is what is known about it already. */
export function begun(log, more = {}) {
  const now = localTime();
  return {...BLANK, opened: now, ...more, id: crypto.randomUUID(), format: FORMAT, log, changed: now, used: Date.now()};
}

/** Return a second case with everything another one has, but what ties it to that one. */
export function copied(record, title) {
  return {...record, id: crypto.randomUUID(), title, revision: 0, used: Date.now()};
}

/** Return the words for a record that must not be opened here. */
export const newerWords = "A newer version of this page wrote this case. It is kept untouched: update the page, then open it.";
