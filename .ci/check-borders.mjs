// Cruises the working folder with the rules of .dependency-cruiser.mjs and fails on any broken border. A cruise that saw
// no TypeScript, or none of the imports in it, fails too: it would pass whatever the borders are.
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import visitor from '@swc/core/Visitor.js';
import { cruise } from 'dependency-cruiser';
import extractOptions from 'dependency-cruiser/config-utl/extract-depcruise-options';

// dependency-cruiser walks the syntax with a visitor that is older than `using`, and would stop there.
const { prototype } = visitor.Visitor;
const { visitStatement } = prototype;
prototype.visitStatement = function (statement) {
  if (statement.type !== 'UsingDeclaration') return visitStatement.call(this, statement);
  return { ...statement, decls: this.visitVariableDeclarators(statement.decls) };
};

const config = fileURLToPath(new URL('../.dependency-cruiser.mjs', import.meta.url));
const folders = ['src', 'pipelines', 'notebooks', 'tests'].filter((folder) => existsSync(folder));

const { output } = await cruise(folders, await extractOptions(config));
const sources = output.modules.filter(({ source }) => source.startsWith('src/') && source.endsWith('.ts'));
const imports = sources
  .flatMap(({ dependencies }) => dependencies)
  .filter(({ resolved }) => resolved.startsWith('src/'));

for (const { from, to, cycle, rule } of output.summary.violations) {
  const reason = output.summary.ruleSetUsed.forbidden.find(({ name }) => name === rule.name)?.comment ?? '';
  const path = cycle ? [from, ...cycle.map(({ name }) => name)] : [from, to];
  console.error(`${rule.name}: ${path.join(' → ')}\n  ${reason}`);
}
const blind = sources.length === 0 || imports.length === 0;
if (blind) console.error(`borders not checked: ${sources.length} modules and ${imports.length} imports seen in src`);
else
  console.log(
    `borders: ${sources.length} modules and ${imports.length} imports in src, ${output.summary.error} errors`,
  );
process.exitCode = blind || output.summary.error > 0 ? 1 : 0;
