// Passes up and down compiled trees for the browser's Python, which takes ten times as long.
// The same sums in the same order as engine/inference/upwards.py and propagation.py, which hold where
// this gives up; engine/inference/elsewhere.py writes the questions and reads the answers: numbers as
// their eight bytes, a character each, as JSON would take longer than the passes.

const TINY = 1e-250; // products that may get smaller are left to Python, which has logarithms
const PIECE = 8192; // characters made at a time
const trees = []; // by slot

/** Take a tree into a slot, as JSON: cliques, children first, and the homes of variables. */
export function hold(slot, text) {
  const {cliques, homes} = JSON.parse(text);
  let start = 0;
  const placed = homes.map(([clique, states, stateOf]) => {
    start += states;
    return {clique, start: start - states, end: start, stateOf: Int32Array.from(stateOf)};
  });
  trees[slot] = {cliques: withIndices(cliques.map(prepared)), homes: placed, states: start, up: ""};
}

/** Return log2 of the chance of what was found; empty where a product may vanish. */
export function evidence(slot, text) {
  const log2 = upwards(trees[slot], text);
  return log2 === null ? "" : written(Float64Array.of(log2));
}

/** Return the mean of log2 of all tables, then the posteriors of all variables; what was found must
 * be possible, and no product vanish. */
export function posteriors(slot, text) {
  const tree = trees[slot];
  if (tree.up !== text) upwards(tree, text);
  downwards(tree);
  const told = new Float64Array(1 + tree.states);
  told[0] = meanLog(tree);
  for (const {clique, start, end, stateOf} of tree.homes) {
    sumOut(tree.cliques[clique].values, stateOf, told.subarray(1 + start, 1 + end));
  }
  return written(told);
}

function written(numbers) {
  const bytes = new Uint8Array(numbers.buffer);
  let text = "";
  for (let i = 0; i < bytes.length; i += PIECE) text += String.fromCharCode(...bytes.subarray(i, i + PIECE));
  return text;
}

function prepared([weights, parent, size, toSeparator, children, floor]) {
  return {
    weights: Float64Array.from(weights),
    values: new Float64Array(weights.length),
    logs: weights.some((weight) => weight !== 1) ? Float64Array.from(weights, Math.log2) : null,
    floor,
    parent,
    toSeparator: Int32Array.from(toSeparator),
    children: children.map(([number, index]) => ({number, index: Int32Array.from(index)})),
    inParent: null,
    message: new Float64Array(size),
    sent: new Float64Array(size),
    known: new Float64Array(size).fill(1),
    bound: 1,
  };
}

function withIndices(cliques) {
  for (const {children} of cliques) {
    for (const {number, index} of children) cliques[number].inParent = index;
  }
  return cliques;
}

/** Multiply findings, as JSON, and messages into the entries; return log2 of their chance. */
function upwards(tree, text) {
  const {cliques, homes} = tree;
  tree.up = text;
  for (const clique of cliques) {
    clique.values.set(clique.weights);
    clique.bound = clique.floor;
  }
  for (const [number, vector, floor] of JSON.parse(text)) {
    const {clique, stateOf} = homes[number];
    multiply(cliques[clique].values, vector, stateOf);
    cliques[clique].bound *= floor;
  }
  let total = 0;
  for (const clique of cliques) {
    for (const {number, index} of clique.children) {
      multiply(clique.values, cliques[number].message, index);
      clique.bound *= cliques[number].bound;
    }
    if (clique.bound < TINY) return null;
    total += Math.log2(send(clique));
  }
  return total;
}

/** Make the message of a clique, scaled to a largest entry of 1; return that scale. */
function send(clique) {
  const {message, sent} = clique;
  sumOut(clique.values, clique.toSeparator, message);
  const scale = message.reduce((most, entry) => Math.max(most, entry), 0);
  let least = Infinity;
  for (let i = 0; i < message.length; i += 1) {
    sent[i] = message[i] || 1; // where it is 0 nothing stands over nothing
    if (scale) message[i] /= scale;
    if (message[i] > 0 && message[i] < least) least = message[i];
  }
  clique.bound = least === Infinity ? 1 : least;
  return scale;
}

/** Turn the entries into joint posteriors, parents first. */
function downwards(tree) {
  const {cliques} = tree;
  tree.up = "";
  for (const clique of cliques.toReversed()) {
    const {known, sent} = clique;
    if (clique.inParent) sumOut(cliques[clique.parent].values, clique.inParent, known);
    else known.fill(1);
    for (let i = 0; i < known.length; i += 1) known[i] /= sent[i];
    multiply(clique.values, known, clique.toSeparator);
  }
}

/** Return the mean of log2 of all tables. */
function meanLog({cliques}) {
  let mean = 0;
  for (const {values, logs} of cliques) {
    if (logs) for (let i = 0; i < values.length; i += 1) mean += values[i] * logs[i];
  }
  return mean;
}

function multiply(values, factors, index) {
  for (let i = 0; i < values.length; i += 1) values[i] *= factors[index[i]];
}

function sumOut(values, index, sums) {
  sums.fill(0);
  for (let i = 0; i < values.length; i += 1) sums[index[i]] += values[i];
}
