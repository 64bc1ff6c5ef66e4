// One drawer of IndexedDB: records by their `id`, in one store of one database.

/** Return what does one piece of work in a store, `work(store)` giving the request, in a mode. */
export function drawer(name, store) {
  return async (mode, work) => {
    const database = await open(name, store);
    try {
      return await new Promise((resolve, reject) => {
        const request = work(database.transaction(store, mode).objectStore(store));
        request.onsuccess = () => resolve(request.result);
        request.onerror = () => reject(request.error);
      });
    } finally {
      database.close();
    }
  };
}

/** Return what looks at a record and writes another in its place, with no other window in between.
 *
 * `decide(stored)` gives what to write, or null to leave everything as it is; what it gave comes
 * back once it is stored.
 */
export function exchange(name, store) {
  return async (id, decide) => {
    const database = await open(name, store);
    try {
      return await new Promise((resolve, reject) => {
        const transaction = database.transaction(store, "readwrite");
        const records = transaction.objectStore(store);
        let written = null;
        records.get(id).onsuccess = ({target}) => {
          written = decide(target.result);
          if (written) records.put(written);
        };
        transaction.oncomplete = () => resolve(written);
        transaction.onerror = transaction.onabort = () => reject(transaction.error);
      });
    } finally {
      database.close();
    }
  };
}

function open(name, store) {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open(name, 1);
    request.onupgradeneeded = () => request.result.createObjectStore(store, {keyPath: "id"});
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}
