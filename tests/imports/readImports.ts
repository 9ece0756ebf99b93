import { existsSync, readdirSync, readFileSync } from "node:fs";
import { dirname, join, posix } from "node:path";

/** One import as written in a file; both paths are relative to the project's top folder. */
export interface Import {
  readonly from: string;
  /** The file it leads to, or the package's name ("node:fs" for what comes with Node). */
  readonly to: string;
  readonly inProject: boolean;
  /** `import type` or `export type`: gone once compiled. */
  readonly typesOnly: boolean;
}

const sources = /\.(ts|tsx|mjs|cjs)$/;
const withoutComments = (text: string): string =>
  text.replace(/\/\*[\s\S]*?\*\//g, "").replace(/(^|[^:"'`])\/\/.*$/gm, "$1");

/**
 * Every way of naming another module: import and export with `from`, bare imports, dynamic imports, `require`, `typeof
 * import()`. Types count like values: what a file knows of another is the same whether or not it survives compilation.
 */
const forms = [
  /\b(?:import|export)\b(\s+type\b)?[^"'`;]*?\bfrom\s*["']([^"']+)["']/g,
  /\bimport()\s*["']([^"']+)["']/g,
  /\b(?:import|require)()\s*\(\s*["']([^"']+)["']/g,
];

/** What the text of one module names, form by form, repeats left in. */
export function specifiersIn(text: string): { specifier: string; typesOnly: boolean }[] {
  const code = withoutComments(text);
  return forms.flatMap((form) =>
    [...code.matchAll(form)].map(([, type, specifier]) => ({ specifier: specifier ?? "", typesOnly: Boolean(type) })),
  );
}

/** "@scope/name/deep" and "name/deep" -> the package they belong to. */
const packageOf = (specifier: string): string =>
  specifier
    .split("/")
    .slice(0, specifier.startsWith("@") ? 2 : 1)
    .join("/");

/** Source files under a folder of the project, sorted, as paths relative to the top folder. */
export function sourceFiles(root: string, folder: string): string[] {
  return readdirSync(join(root, folder), { recursive: true, encoding: "utf8" })
    .map((name) => posix.join(folder, name.replaceAll("\\", "/")))
    .filter((path) => sources.test(path) && !/\/(\.|node_modules\/)/.test(path))
    .sort();
}

/** Imports of one source file. @throws Error naming both, when a relative import leads nowhere */
export function importsOf(root: string, file: string): Import[] {
  return specifiersIn(readFileSync(join(root, file), "utf8")).map(({ specifier, typesOnly }) => {
    if (!specifier.startsWith(".")) return { from: file, to: packageOf(specifier), inProject: false, typesOnly };
    const to = posix.join(dirname(file), specifier.replace(/\?.*$/, ""));
    if (!existsSync(join(root, to))) throw new Error(`${file} imports ${specifier}, and there is no such file.`);
    return { from: file, to, inProject: true, typesOnly };
  });
}
