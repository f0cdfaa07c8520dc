import { makeSaturationTable } from '../physics/refrigerants/make-saturation-table.ts';
import { refrigerantDesignations, refrigerantNamed } from '../physics/refrigerants/refrigerant-named.ts';
import type { SaturationTable } from '../physics/tables/saturation-table.ts';

const folder = 'src/physics/tables';

/** Generated modules: a table of the saturation curve for every refrigerant that has a name, and the list of them. */
export const saturationTableFiles: readonly { path: string; make: () => string }[] = [
  ...refrigerantDesignations.map((designation) => ({
    path: `${folder}/${moduleName(designation)}.ts`,
    make: () => tableModule(makeSaturationTable(refrigerantNamed(designation))),
  })),
  { path: `${folder}/saturation-tables.ts`, make: () => listModule(refrigerantDesignations) },
];

/** `R-1234ze(E)` as the name of a file and of a constant: r-1234ze-e, r1234zeE. */
function moduleName(designation: string): string {
  return designation.toLowerCase().replace(/\((.+)\)/, '-$1');
}

function constantName(designation: string): string {
  return `r${designation.slice(2).replace(/[()]/g, '')}`;
}

function tableModule({ designation, ...curves }: SaturationTable): string {
  const lines = Object.entries(curves).flatMap(([side, curve]) => [
    `  ${side}: {`,
    ...Object.entries(curve).flatMap(([name, value]) => entry(name, value as number | readonly number[])),
    '  },',
  ]);
  return [
    "import type { SaturationTable } from './saturation-table.ts';",
    '',
    `export const ${constantName(designation)}: SaturationTable = {`,
    `  designation: '${designation}',`,
    ...lines,
    '};',
  ].join('\n');
}

function entry(name: string, value: number | readonly number[]): string[] {
  if (typeof value === 'number') return [`    ${name}: ${value},`];
  const rows = Array.from({ length: Math.ceil(value.length / 8) }, (_, i) => value.slice(8 * i, 8 * i + 8));
  return [`    ${name}: [`, ...rows.map((row) => `      ${row.join(', ')},`), '    ],'];
}

function listModule(designations: readonly string[]): string {
  return [
    ...designations.map((each) => `import { ${constantName(each)} } from './${moduleName(each)}.ts';`).sort(),
    "import type { SaturationTable } from './saturation-table.ts';",
    '',
    '/** The table of every refrigerant that has a name. */',
    `export const saturationTables: readonly SaturationTable[] = [${designations.map(constantName).join(', ')}];`,
  ].join('\n');
}
