// Registers the service worker, lets it store the runtime, and offers new versions.

/** `tell` hears {offline: sentence} and {update: function that changes over}. */
export async function prepareOffline(tell) {
  if (!("serviceWorker" in navigator)) {
    tell({offline: "This browser cannot store the page: it needs the connection each time."});
    return;
  }
  navigator.serviceWorker.addEventListener("message", ({data}) => hear(data, tell));
  const registration = await navigator.serviceWorker.register("sw.js");
  offerUpdate(registration, tell);
  const {active} = await navigator.serviceWorker.ready;
  active.postMessage("store");
}

function hear(data, tell) {
  if (data.wanted === undefined) return;
  if (data.stored === data.wanted) tell({offline: "Ready offline."});
  else if (data.failed) tell({offline: `Not ready offline yet: ${data.failed}`});
  else tell({offline: `Storing for offline use: ${data.stored} of ${data.wanted} files.`});
}

function offerUpdate(registration, tell) {
  const offer = (waiting) => tell({update: () => changeOver(waiting)});
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
