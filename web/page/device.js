// What the page asks of the device: time, files, looks.

const THEMES = ["device", "light", "dark", "sunlight"];
const NAMES = {device: "automatic", light: "light", dark: "dark", sunlight: "sunlight"};

/** Return the local time as 2001-02-03T04:05:06. */
export function localTime() {
  const now = new Date();
  return new Date(now.getTime() - now.getTimezoneOffset() * 60_000).toISOString().slice(0, 19);
}

/** Offer a text as a file to keep. */
export function download(name, text, type = "application/json") {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([text], {type}));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 1000);
}

function savedTheme() {
  try {
    return localStorage.getItem("theme") ?? "device";
  } catch {
    return "device";
  }
}

/** Return the look that comes after the present one. */
export function nextTheme() {
  return THEMES[(THEMES.indexOf(savedTheme()) + 1) % THEMES.length];
}

/** Show a look and remember it. */
export function showTheme(theme = savedTheme()) {
  document.documentElement.dataset.theme = theme;
  document.getElementById("theme").textContent = `Look: ${NAMES[theme]}`;
  try {
    localStorage.setItem("theme", theme);
  } catch {
    // Without storage the look lasts until the page is closed.
  }
}
