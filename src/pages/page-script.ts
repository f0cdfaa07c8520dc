/**
 * What a page does of itself, to be inlined: reads its tables, draws its charts, lets a reader choose the units and, where it has filters,
 * which jobs all of its charts are about. What was chosen stands in the page's address and goes along to the other pages.
 *
 * Charts in view are drawn first, then the others from top to bottom, leaving the browser a turn in between; all at once before printing. A
 * chart that cannot be drawn is replaced by a sentence; the tables hold the same figures. Without scripts the page reads as it was written.
 */
export const pageScript = `(() => {
  'use strict';
  const root = document.documentElement;
  const read = (id, none) => {
    const element = document.getElementById(id);
    return element === null ? none : JSON.parse(element.textContent);
  };
  const specs = read('charts', []);
  const every = (selector) => [...document.querySelectorAll(selector)];

  const bytesOf = (text) => Uint8Array.from(atob(text), (character) => character.charCodeAt(0)).buffer;
  const arrays = { u8: Uint8Array, u16: Uint16Array, u32: Uint32Array, f32: Float32Array };
  const rowsOf = ({ count, columns }) => {
    const read = columns.map(({ name, kind, bytes, words }) => {
      const values = new arrays[kind](bytesOf(bytes));
      if (words !== undefined) return [name, (at) => words[values[at]]];
      return [name, (at) => (Number.isNaN(values[at]) ? null : values[at])];
    });
    return Array.from({ length: count }, (_, at) => Object.fromEntries(read.map(([name, of]) => [name, of(at)])));
  };
  const tables = new Map(Object.entries(read('tables', {})).map(([name, table]) => [name, rowsOf(table)]));

  const wantedAtFirst = new URLSearchParams(location.search);
  const form = document.getElementById('filters');
  const fields = form === null ? [] : [...form.elements].filter(({ tagName }) => tagName === 'SELECT');
  // Before anything is drawn.
  for (const field of fields) {
    const wanted = wantedAtFirst.get(field.name);
    if (wanted !== null && [...field.options].some(({ value }) => value === wanted)) field.value = wanted;
  }
  const chosen = () => Object.fromEntries(fields.map(({ name, value }) => [name, value === '' ? null : value]));

  const remember = () => {
    const query = new URLSearchParams();
    if (root.dataset.units !== written) query.set('units', root.dataset.units);
    for (const link of every('a[data-page]')) link.search = query.size === 0 ? '' : '?' + query;
    for (const { name, value, dataset } of fields) if (value !== (dataset.usual ?? '')) query.set(name, value);
    try {
      history.replaceState(null, '', (query.size === 0 ? location.pathname : '?' + query) + location.hash);
    } catch {}
  };

  const drawn = new Map();
  let pending = every('[data-chart]');
  const draw = (element) => {
    try {
      drawn.get(element)?.finalize();
      const spec = specs[element.dataset.chart];
      // Told by the label of its place: within it, vega names all of it alike and its marks not at all.
      const canvas = document.createElement('div');
      canvas.setAttribute('aria-hidden', 'true');
      element.replaceChildren(canvas);
      const view = new vega.View(vega.parse(spec, null, { ast: true }), {
        expr: vegaInterpreter,
        renderer: 'svg',
        container: canvas,
        hover: false,
      });
      for (const { name } of spec.data ?? [])
        if (tables.has(name)) view.data(name, tables.get(name).map((row) => ({ ...row })));
      select(view, spec);
      view.run();
      drawn.set(element, view);
      element.dataset.drawn = 'yes';
    } catch (error) {
      element.textContent = 'This chart could not be drawn.';
      element.dataset.drawn = 'no';
      console.error(error);
    }
  };
  const select = (view, spec) => {
    const names = new Set((spec.signals ?? []).map(({ name }) => name));
    for (const [name, value] of Object.entries(chosen())) if (names.has(name)) view.signal(name, value);
  };
  const isInView = (element) => {
    const { top, bottom } = element.getBoundingClientRect();
    return bottom > 0 && top < innerHeight;
  };
  const isShown = (element) => element.closest('[data-u]:not([data-u=' + root.dataset.units + '])') === null;
  const drawAll = () => pending.splice(0).filter(isShown).forEach(draw);
  let isDrawing = false;
  const drawPending = async () => {
    if (isDrawing) return;
    isDrawing = true;
    delete root.dataset.charts;
    while (pending.length > 0) {
      const [next] = pending.splice(Math.max(0, pending.findIndex(isInView)), 1);
      if (isShown(next)) draw(next);
      await new Promise((resolve) => setTimeout(resolve));
    }
    isDrawing = false;
    root.dataset.charts = 'drawn';
  };

  const written = root.dataset.units;
  const swapped = every('*').filter(({ attributes }) =>
    [...attributes].some(({ name }) => name.startsWith('data-other-')),
  );
  const showUnits = (units) => {
    if (units === root.dataset.units) return;
    root.dataset.units = units;
    const redrawn = new Set(every('[data-chart]').filter((element) => !drawn.has(element)));
    for (const element of swapped)
      for (const { name, value } of [...element.attributes]) {
        if (!name.startsWith('data-other-')) continue;
        const own = name.slice('data-other-'.length);
        element.setAttribute(name, element.getAttribute(own) ?? '');
        element.setAttribute(own, value);
        if (own === 'data-chart') redrawn.add(element);
      }
    pending = [...new Set([...pending, ...redrawn])];
    drawPending();
  };
  for (const radio of every('input[name=units]')) {
    radio.addEventListener('change', () => {
      showUnits(radio.value);
      remember();
    });
    if (radio.value === wantedAtFirst.get('units')) {
      radio.checked = true;
      showUnits(radio.value);
    }
  }

  const count = () => {
    const output = form?.querySelector('output') ?? null;
    const counted = output === null ? undefined : tables.get(output.dataset.table);
    if (counted === undefined) return;
    const { from = null, to = null, skill, ...words } = chosen();
    const isOfSkill = (row) => skill === undefined || row.skill === skill;
    const passes = (row) =>
      Object.entries(words).every(([name, word]) => word === null || row[name] === word) &&
      (from === null || row.month >= from) &&
      (to === null || (row.month <= to && row.month !== ''));
    const sum = (rows) => rows.reduce((all, row) => all + (output.dataset.field === undefined ? 1 : row[output.dataset.field]), 0);
    const asked = counted.filter(isOfSkill);
    const text = (number) => String(number).replace(/\\B(?=(\\d{3})+(?!\\d))/g, '\\u00a0');
    output.textContent = text(sum(asked.filter(passes))) + ' of ' + text(sum(asked)) + ' ' + output.dataset.noun;
  };
  const filter = () => {
    count();
    for (const [element, view] of drawn) {
      select(view, specs[element.dataset.chart]);
      view.runAsync();
    }
  };
  form?.addEventListener('change', () => {
    filter();
    remember();
  });
  form?.addEventListener('reset', () => setTimeout(() => {
    filter();
    remember();
  }));
  form?.addEventListener('submit', (event) => event.preventDefault());

  count();
  remember();
  root.dataset.ready = 'yes';
  addEventListener('beforeprint', drawAll);
  drawPending();
})();`;
