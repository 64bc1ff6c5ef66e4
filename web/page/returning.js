// A set that comes back: what Python is told of the other cases of the shelf, so that it can find
// the earlier ones of the same set. Nothing of them is put into this case but by a press.
import {kept} from "./cases.js";
import {aboutOf, isNewer} from "./records.js";

const REPAIRS = ["repair", "unrepair"];

/** Return what is written about a case, and the cases of others that name an owner as well. */
export async function besides(record) {
  if (!record) return {};
  const about = {...aboutOf(record), id: record.id};
  if (!record.owner?.trim()) return {about};
  const others = (await kept()).filter((each) => each.owner?.trim() && each.id !== record.id && !isNewer(each) && !each.deleted);
  return {about, earlier: others.map(bare)};
}

/** Return of a case only what tells how it ended and what was put right. */
function bare({id, owner, title, status, opened, changed, closed, log: {family, inputs}}) {
  return {id, owner, title, status, opened, changed, closed, log: {family, inputs: inputs.filter((input) => REPAIRS.includes(input.do))}};
}
