// A store in the browser's own database, opened for one transaction.

/**
 * @param {string} database  it holds one store of the same name
 * @param {IDBTransactionMode} mode
 * @param {IDBObjectStoreParameters} [options]  of the store, where it is made
 * @returns {Promise<IDBObjectStore>}
 */
export async function openStore(database, mode, options) {
  const opening = indexedDB.open(database);
  opening.onupgradeneeded = () => opening.result.createObjectStore(database, options);
  const opened = await settled(opening);
  const transaction = opened.transaction(database, mode);
  // Left open, it would stand in the way of whoever deletes it.
  for (const end of ["complete", "abort"]) transaction.addEventListener(end, () => opened.close());
  return transaction.objectStore(database);
}

/**
 * @template T
 * @param {IDBRequest<T>} request
 * @returns {Promise<T>}
 */
export function settled(request) {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

/**
 * @param {IDBObjectStore} store
 * @returns {Promise<void>}
 */
export function committed(store) {
  return new Promise((resolve, reject) => {
    store.transaction.oncomplete = () => resolve();
    store.transaction.onabort = () => reject(store.transaction.error);
  });
}
