// Our own counts of confirmed causes: a switch, off until somebody turns it on. While it is on, every
// question about a case carries the counts of that moment; nothing is counted in by itself.
const KEPT = "dryjoint-counts"; // {at, families: {family: {sets, times: {cause: number}}}}
const SINCE = "dryjoint-counted-since"; // cases closed before are not counted

function read(key) {
  try {
    return JSON.parse(localStorage.getItem(key));
  } catch {
    return null;
  }
}

/** Return the counts that are switched on, null while none are. */
export const countsInUse = () => read(KEPT);

/** Return since when closed cases are counted, empty for all. */
export const countedSince = () => read(SINCE) ?? "";

/** Switch counts on, or off with null. */
export function useCounts(counts) {
  if (counts) localStorage.setItem(KEPT, JSON.stringify(counts));
  else localStorage.removeItem(KEPT);
}

/** Begin to count anew from a time. */
export function countFrom(time) {
  localStorage.setItem(SINCE, JSON.stringify(time));
}

/** Return what is asked, with the counts beside the log while they are switched on. */
export function withCounts(args) {
  const counts = args.log && countsInUse();
  return counts ? {...args, log: {...args.log, counts: counts.families}} : args;
}

/** Return the counts of closed cases, by kind of set: those whose end was confirmed. */
export function counted(records) {
  const families = {};
  for (const {log, status, closed, deleted} of records) {
    const isSure = status === "closed" && !deleted && ["found", "nothing-wrong"].includes(closed?.how);
    if (!isSure || closed.at < countedSince() || log.family === "not-sure") continue;
    const row = (families[log.family] ??= {sets: 0, times: {}});
    row.sets += 1;
    for (const cause of closed.causes) row.times[cause] = (row.times[cause] ?? 0) + 1;
  }
  return families;
}
