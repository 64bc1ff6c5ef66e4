// Keeps the sets that were compiled from somebody's own knowledge: IndexedDB, {id, app, text} a set.
// `app` names the version of the page that made it: another one may not be able to read it.

const STORE = "models";

function open() {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open("dryjoint-own", 1);
    request.onupgradeneeded = () => request.result.createObjectStore(STORE, {keyPath: "id"});
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

async function inStore(mode, work) {
  const database = await open();
  try {
    return await new Promise((resolve, reject) => {
      const request = work(database.transaction(STORE, mode).objectStore(STORE));
      request.onsuccess = () => resolve(request.result);
      request.onerror = () => reject(request.error);
    });
  } finally {
    database.close();
  }
}

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
