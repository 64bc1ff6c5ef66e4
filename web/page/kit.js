// The kit used last, kept on this device and offered again: instruments, lid, accuracies.
import {enterAll} from "./several.js";

const KEPT = "dryjoint-kit";
const CHANGES = {
  have: (kit, {instrument}) => ({...kit, instruments: [...new Set([...kit.instruments, instrument])]}),
  lack: (kit, {instrument}) => ({...kit, instruments: kit.instruments.filter((each) => each !== instrument)}),
  kit: (kit, {instruments}) => ({...kit, instruments}),
  lid: (kit, {lid}) => ({...kit, lid}),
  counter: (kit, {ppm}) => ({...kit, ppm}),
  accuracy: (kit, {instrument, said}) => ({...kit, accuracies: {...kit.accuracies, [instrument]: said}}),
};

/** Keep the kit as the inputs of a case leave it, when the last of them was about it: a case that
 * was only opened, or the worked one, may be somebody else's and changes nothing. */
export function rememberKit(inputs) {
  if (!(inputs.at(-1).do in CHANGES)) return;
  const told = inputs.filter((input) => input.do in CHANGES);
  const kit = told.reduce((kit, input) => CHANGES[input.do](kit, input), {instruments: [], lid: "on", ppm: ""});
  try {
    localStorage.setItem(KEPT, JSON.stringify(kit));
  } catch { /* then nothing is offered the next time */ }
}

/** Return the kit used last, null when none is kept. */
export function lastKit() {
  try {
    return JSON.parse(localStorage.getItem(KEPT));
  } catch {
    return null;
  }
}

export const kitActs = (desk) => ({
  "last-kit": async () => {
    const {instruments, lid, ppm, accuracies = {}} = lastKit();
    const told = Object.entries(accuracies).filter(([, said]) => said).map(([instrument, said]) => ({do: "accuracy", instrument, said}));
    const inputs = [{do: "kit", instruments}, {do: "lid", lid}, ...(ppm ? [{do: "counter", ppm}] : []), ...told];
    await enterAll(desk, inputs, desk.view());
  },
});
