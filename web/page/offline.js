// Registers the service worker, lets it store the page and the kinds of set that were chosen, says
// what is stored, and offers new versions.
import {byId} from "./screen.js";

const megabytes = (bytes) => (bytes / 1e6).toFixed(1);

/** `tell` hears {offline: sentence, left: {kinds, bytes}} and {update: function that changes over}. */
export async function prepareOffline(tell) {
  if (!("serviceWorker" in navigator)) {
    tell({offline: "This browser cannot store the page: it needs the connection each time."});
    return;
  }
  navigator.serviceWorker.addEventListener("message", ({data}) => hear(data, tell));
  const registration = await navigator.serviceWorker.register("sw.js");
  offerUpdate(registration, tell);
  await ask("store");
}

/** Have a kind of set stored that was just fetched; without a service worker nothing happens. */
export async function keepKind(family) {
  if ("serviceWorker" in navigator) await ask({kind: family});
}

export const offlineActs = {
  "store-kinds": () => ask("store kinds"),
};

/** Show what is stored, and the button for what is not. */
export function showOffline({offline, left}) {
  if (offline) byId("offline-words").textContent = offline;
  byId("store-line").hidden = !left?.kinds;
  if (!left?.kinds) return;
  const which = left.kinds === 1 ? "the last kind" : `the other ${left.kinds} kinds`;
  byId("store-kinds").textContent = `Store ${which} of set as well (${megabytes(left.bytes)} MB)`;
}

async function ask(what) {
  const {active} = await navigator.serviceWorker.ready;
  active.postMessage(what);
}

function hear(data, tell) {
  if (data.wanted === undefined) return;
  const {stored, wanted, kinds, failed, loading} = data;
  const left = {kinds: kinds.all - kinds.stored, bytes: kinds.bytesLeft};
  if (failed) tell({offline: `Not everything is stored yet: ${failed}`, left});
  else if (stored < wanted) tell({offline: `Storing for offline use: ${stored} of ${wanted} files.`});
  else if (loading) tell({offline: `Storing kinds of set: ${megabytes(loading.stored)} of ${megabytes(loading.wanted)} MB.`});
  else tell({offline: readyWords(kinds), left});
}

/** Say what works without a connection: no more than is there. */
function readyWords({stored, all}) {
  if (stored === 0) return "Ready offline: the page. A kind of set is stored when you choose it.";
  const which = stored < all ? `${stored} of ${all} kinds` : all === 1 ? "the one kind" : `all ${all} kinds`;
  return `Ready offline: the page and ${which} of set.`;
}

function offerUpdate(registration, tell) {
  const offer = (waiting) => tell({update: () => changeOver(waiting)});
  let had = Boolean(navigator.serviceWorker.controller);
  navigator.serviceWorker.addEventListener("controllerchange", () => {
    if (had) tell({update: () => location.reload()}); // changed over in another window
    had = true;
  });
  if (registration.waiting && navigator.serviceWorker.controller) offer(registration.waiting);
  registration.addEventListener("updatefound", () => {
    const coming = registration.installing;
    coming.addEventListener("statechange", () => {
      if (coming.state === "installed" && navigator.serviceWorker.controller) offer(coming);
    });
  });
}

function changeOver(waiting) {
  const reload = () => location.reload();
  navigator.serviceWorker.addEventListener("controllerchange", reload, {once: true});
  waiting.postMessage("take over");
  setTimeout(reload, 4000); // some browsers never tell
}
