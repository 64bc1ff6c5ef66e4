// Starts the browser's Python under node and lets inside.py compile archives.
// Use: node compile.mjs RUNTIME_DIR INSIDE_PY WORK_DIR
// WORK_DIR holds *.source.zip; *.zip and python.json are written beside them.
import {readdirSync, readFileSync, writeFileSync} from "node:fs";
import {join, resolve} from "node:path";
import {pathToFileURL} from "node:url";

const [runtimeDir, insidePy, workDir] = process.argv.slice(2).map((path) => resolve(path));
const {loadPyodide} = await import(pathToFileURL(join(runtimeDir, "pyodide.mjs")));
const python = await loadPyodide({indexURL: runtimeDir});
python.FS.mkdir("/work");
python.FS.mount(python.FS.filesystems.NODEFS, {root: workDir}, "/work");
python.runPython(readFileSync(insidePy, "utf8"));
const compileArchive = python.globals.get("compile_archive");
const Path = python.pyimport("pathlib").Path;
for (const name of readdirSync(workDir).filter((each) => each.endsWith(".source.zip")).sort()) {
  compileArchive(Path(`/work/${name}`), Path(`/work/${name.replace(".source.zip", ".zip")}`));
}
writeFileSync(join(workDir, "python.json"), python.globals.get("about_python")());
