// Links that carry a case in their fragment. What is behind the # never leaves the device.
import {kept} from "./cases.js";
import {keepSheet, keptSheet} from "./sheets.js";

const CASE = /^#dj\d+\./;

/** Return the address of this page without a fragment. */
export const pageAddress = () => location.href.split("#")[0];

/** Call `then` now if the page was opened by such a link, and whenever one is opened later. */
export function whenLinked(then) {
  const look = () => {
    if (CASE.test(location.hash)) then();
  };
  addEventListener("hashchange", look);
  look();
}

/** Show what the link carries; an answer to a case of this browser is shown beside that case. */
export async function openLink(desk) {
  const text = location.hash;
  try {
    const ids = (await kept()).map(({id}) => id);
    const {view, case: answered} = await desk.ask("desk-open", {text, ids});
    if (!answered) return await desk.show({...view, base: pageAddress(), answers: keptSheet(text)}, "title");
    forgetLink();
    return await desk.openKept(answered, {screen: "desk", case_id: answered, base: pageAddress(), reply: text});
  } catch (problem) {
    forgetLink(); // else every later visit would stumble over it again
    throw problem;
  }
}

/** Take the link out of the address, so that loading the page anew does not open it again. */
export function forgetLink() {
  keepSheet(location.hash, null);
  history.replaceState(null, "", pageAddress());
}
