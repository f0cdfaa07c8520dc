// The borders between the layers, one named rule with its reason each. Run by `.ci/check-borders.mjs`; every rule proves
// itself in tests/guards/borders.test.ts, which also refuses a rule that nothing is planted for.
//
// errors, references, units, numerics ← physics ← records ← sources, traces ← facts ← checks ← fleet, accounts ← store
// ← charts ← pages ← steps ← cli

const single = ['errors', 'references', 'index'];

/** The path of a layer, as a regular expression. */
const at = (layer) => (single.includes(layer) ? `^src/${layer}\\.ts$` : `^src/${layer}/`);

/** A rule: what is in `layer` may import from src only its own files and those of `mayImport`. */
const border = (name, layer, mayImport, comment) => ({
  name,
  comment,
  severity: 'error',
  from: { path: at(layer) },
  to: { path: '^src/', pathNot: [layer, ...mayImport].map(at) },
});

const rule = (name, comment, from, to) => ({ name, comment, severity: 'error', from, to });

const ground = ['errors', 'references'];
const words = [...ground, 'units', 'numerics', 'physics', 'records'];
const measured = [...words, 'sources', 'traces', 'facts'];
const judged = [...measured, 'checks'];
const stored = [...judged, 'fleet', 'accounts', 'store'];

export default {
  forbidden: [
    border('errors-know-nothing', 'errors', [], 'Everything may raise an error, so errors may need nothing.'),
    border('references-know-nothing', 'references', [], 'A list of works cited; every layer cites from it.'),
    border(
      'units-know-no-meaning',
      'units',
      ground,
      'Gauge pressure and °F become SI without knowing what they are for.',
    ),
    border('numerics-know-no-jobs', 'numerics', ground, 'Numbers in, numbers out: no units, no jobs.'),
    rule(
      'physics-stands-alone',
      'Pure functions in SI, an entry point of its own: nothing but numerics, errors and references, no package, no Node.',
      { path: at('physics') },
      { pathNot: ['physics', 'numerics', ...ground].map(at) },
    ),
    rule(
      'physics-loads-no-package',
      'Whoever imports dryhold/physics loads nothing else, not even by way of numerics.',
      { path: at('physics') },
      { path: '(^|/)node_modules/', reachable: true },
    ),
    rule(
      'tables-solve-nothing',
      'A reading from a table takes nanoseconds and loads no equation; what makes the tables stands outside.',
      { path: '^src/physics/tables/' },
      { path: '^src/physics/(equations|fluids|refrigerants)/' },
    ),
    border(
      'records-know-no-files',
      'records',
      words,
      'What the words mean does not depend on where the data came from.',
    ),
    border(
      'sources-only-read',
      'sources',
      words,
      'Bytes to records; what a curve means is none of a reader’s business.',
    ),
    border('traces-only-segment', 'traces', words, 'Phases come from the series, whatever file it came from.'),
    border(
      'facts-know-no-policy',
      'facts',
      measured,
      'What was measured and computed stands before anything is judged.',
    ),
    border('checks-judge-facts', 'checks', measured, 'A judgement sees facts and limits, no fleet, no store, no page.'),
    border('fleet-counts-findings', 'fleet', judged, 'Statistics take findings, from any store, and know no accounts.'),
    border(
      'accounts-stand-beside',
      'accounts',
      judged,
      'Refrigerant law and arithmetic know no statistics about people.',
    ),
    border('store-keeps-only', 'store', stored, 'The store keeps what others computed; it draws and orders nothing.'),
    border('charts-are-pure', 'charts', stored, 'Rows to a specification; a chart knows no page.'),
    border('pages-start-nothing', 'pages', [...stored, 'charts'], 'Pages show; the order of the work is in steps.'),
    border(
      'steps-know-no-command',
      'steps',
      [...stored, 'charts', 'pages'],
      'The work can be ordered without a command line.',
    ),
    rule(
      'cli-is-the-end',
      'Only cli catches errors and sets exit statuses; nothing is built on it.',
      { path: '^src/', pathNot: at('cli') },
      { path: at('cli') },
    ),
    rule(
      'simulate-only-from-cli',
      'Invented fleets must not leak into what judges real ones.',
      { path: '^(src|pipelines|notebooks)/', pathNot: [at('cli'), at('simulate')] },
      { path: at('simulate') },
    ),
    border('simulate-knows-no-judge', 'simulate', words, 'Known truth must not come from the code that it is to test.'),
    rule(
      'index-is-for-outsiders',
      'Inside, a file imports the file it needs; through the index everything would need everything.',
      { path: '^src/' },
      { path: at('index') },
    ),
    rule(
      'pipelines-see-the-index-alone',
      'What is run and with which limits: by public names only.',
      { path: '^pipelines/' },
      { path: '^(src|tests|notebooks|bin)/', pathNot: at('index') },
    ),
    rule(
      'notebooks-see-the-index-alone',
      'Exploration by public names only, so that it keeps working.',
      { path: '^notebooks/' },
      { path: '^(src|tests|pipelines|bin)/', pathNot: at('index') },
    ),
    rule(
      'nothing-builds-on-notebooks',
      'Exploration may be thrown away at any time.',
      { pathNot: '^(notebooks|tests)/' },
      { path: '^notebooks/' },
    ),
    rule('src-knows-no-tests', 'The product ships without its tests.', { path: '^src/' }, { path: '^tests/' }),
    rule(
      'database-only-in-store',
      'One place knows DuckDB and Arrow, so that they can be replaced there.',
      { path: '^(src|pipelines|notebooks)/', pathNot: at('store') },
      { path: '(^|/)node_modules/(@duckdb|apache-arrow)(/|$)' },
    ),
    rule(
      'no-dev-dependency-in-src',
      'Whoever installs the package does not get the development dependencies.',
      { path: '^src/' },
      { dependencyTypes: ['npm-dev'] },
    ),
    rule(
      'packages-are-declared',
      'A package that another one happens to bring may vanish with it.',
      { path: '^(src|tests|pipelines|notebooks)/' },
      { dependencyTypes: ['npm-no-pkg', 'npm-unknown'] },
    ),
    rule('no-circles', 'Two files that need each other are one file, or three.', {}, { circular: true }),
    rule(
      'every-import-resolves',
      'An import that leads nowhere escapes every rule above.',
      {},
      { couldNotResolve: true },
    ),
  ],
  options: {
    parser: 'swc',
    doNotFollow: { path: ['(^|/)node_modules/', '^dist/'] },
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['source', 'import', 'node', 'default', 'types'],
      mainFields: ['module', 'main', 'types', 'typings'],
      extensions: ['.ts', '.d.ts', '.js', '.mjs', '.cjs', '.json'],
    },
  },
};
