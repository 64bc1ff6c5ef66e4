// The owner's sheet half filled in: its answers outlast a reload, on this device alone. One sheet is
// kept, the last; a link that is left takes it away.
const KEPT = "sheet";

/** Return what is kept of the sheet that came with `link`: answers by check. */
export function keptSheet(link) {
  try {
    const kept = JSON.parse(localStorage.getItem(KEPT));
    return kept?.link === link ? kept.answers : {};
  } catch {
    return {}; // no storage here, or nothing that can be read: the sheet is empty as ever
  }
}

/** Keep what is on the sheet; null forgets it. */
export function keepSheet(link, answers) {
  try {
    if (answers) localStorage.setItem(KEPT, JSON.stringify({link, answers}));
    else localStorage.removeItem(KEPT);
  } catch {
    // No storage here: the answers stay on the screen as they are.
  }
}
