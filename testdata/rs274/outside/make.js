// Records what two general-purpose readers of the npm registry make of the
// programs in this folder: gcode-parser 2.2.0 splits them into words,
// gcode-interpreter 3.0.0 says which blocks are G0 to G3 and with what words.
// Absolute and incremental sums of the end points are formed here.
//
//   cd somewhere-outside && npm install gcode-parser@2.2.0 gcode-interpreter@3.0.0
//   NODE_PATH=$PWD/node_modules node FOLDER/make.js FOLDER > FOLDER/outside.json
//
// go test reads outside.json and needs no Node. The second reader does not
// know W: a move in W alone is recorded with the end point unchanged in X Y Z.
const fs = require('fs'), path = require('path');
const parser = require('gcode-parser');
const Interpreter = require('gcode-interpreter').default || require('gcode-interpreter');
const dir = process.argv[2];
const out = { how: 'made by make.js: gcode-parser 2.2.0 (words), gcode-interpreter 3.0.0 (motion), Node ' + process.versions.node.split('.')[0], programs: [] };
for (const name of fs.readdirSync(dir).filter((n) => n.endsWith('.nc')).sort()) {
  const text = fs.readFileSync(path.join(dir, name), 'utf8');
  const lines = text.split('\n');
  const words = [];
  lines.forEach((line, i) => {
    const got = parser.parseLine(line, { flatten: false });
    const w = (got.words || []).map(([l, v]) => [l, v]);
    if (got.ln !== undefined) w.unshift(['N', got.ln]);
    if (w.length) words.push({ line: i + 1, words: w });
  });
  const moves = [];
  let at = { X: 0, Y: 0, Z: 0 }, increment = false;
  const move = (code) => (p) => {
    for (const a of ['X', 'Y', 'Z']) if (p[a] !== undefined) at[a] = increment ? at[a] + p[a] : p[a];
    if (Object.keys(p).length) moves.push({ code, x: +at.X.toFixed(6), y: +at.Y.toFixed(6), z: +at.Z.toFixed(6) });
  };
  const handlers = { G0: move(0), G1: move(1), G2: move(2), G3: move(3), G90: () => { increment = false; }, G91: () => { increment = true; } };
  new Interpreter({ handlers }).loadFromStringSync(text);
  out.programs.push({ name, words, moves });
}
console.log(JSON.stringify(out, null, 1).replace(/\[\n\s+"(\w)",\n\s+(-?[\d.]+)\n\s+\]/g, '["$1", $2]'));
