// Keeps the sets that were compiled from somebody's own knowledge: IndexedDB, {id, app, text} a set.
// `app` names the version of the page that made it: another one may not be able to read it.

import {drawer} from "./drawer.js";

const inStore = drawer("dryjoint-own", "models");

/** Keep a compiled set; without storage it lasts until the page is closed. */
export async function keepModel(id, app, text) {
  try {
    await inStore("readwrite", (store) => store.put({id, app, text}));
  } catch {
    // The case can still be worked on; after a reload the page says what is missing.
  }
}

/** Return the text of a compiled set, or null when this version of the page has none. */
export async function keptModel(id, app) {
  try {
    const record = await inStore("readonly", (store) => store.get(id));
    return record?.app === app ? record.text : null;
  } catch {
    return null;
  }
}
