/**
 * Says in which scripts something else stands before and after: reads `{name: [before, after]}`, writes the names.
 *
 * What is compared is what the type checker's own parser makes of both: the sort of each node in its order and depth,
 * and what names, numbers, strings and templates hold.
 */

const { readFileSync } = require("node:fs");
const { createRequire } = require("node:module");
const ts = createRequire(process.argv[2])("../lib/typescript.js");

function treeOf(text) {
  const source = ts.createSourceFile("script.js", text, ts.ScriptTarget.ESNext, false, ts.ScriptKind.JS);
  const lines = [`${source.parseDiagnostics.length} faults`];
  const walk = (node, depth) => {
    const held = node === source ? "" : (node.text ?? node.operator ?? "");
    lines.push(`${depth} ${ts.SyntaxKind[node.kind]} ${held}`);
    ts.forEachChild(node, (child) => walk(child, depth + 1));
  };
  walk(source, 0);
  return lines.join("\n");
}

const scripts = Object.entries(JSON.parse(readFileSync(0, "utf8")));
console.log(JSON.stringify(scripts.filter(([, [before, after]]) => treeOf(before) !== treeOf(after)).map(([name]) => name)));
