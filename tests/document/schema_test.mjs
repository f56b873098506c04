// The schemas of rates/schema against the readers: an independent validator and the program judge the
// same good and bad files the same way. Every file is changed at every place: a key taken out, one put
// in, a value made a map, a list or nothing. Where the reader says that the file's structure is wrong,
// the schema must refuse it; where the schema refuses, the reader must.
import assert from 'node:assert/strict';
import { execFile, execFileSync } from 'node:child_process';
import { copyFileSync, existsSync, mkdirSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { cpus, tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import Ajv from 'ajv/dist/2020.js';
import { parse, stringify } from 'yaml';

const { ROOT, TURNWRIGHT } = process.env;
const SHOP = join(ROOT, 'samples/shop');
const work = mkdtempSync(join(tmpdir(), 'schema-'));
const ajv = new Ajv({ allowUnionTypes: true, strict: true, strictRequired: false });
const schema = (name) => ajv.compile(JSON.parse(readFileSync(join(ROOT, 'rates/schema', `${name}.json`), 'utf8')));
const load = (...path) => parse(readFileSync(join(ROOT, ...path), 'utf8'));
const run = (...words) => new Promise((done) => execFile(TURNWRIGHT, words, { timeout: 60000 }, (fault, out, err) => done({ status: fault ? fault.code : 0, err })));

// How each kind of file is put before the program.
let number = 0;
const folder = () => { const path = join(work, String(number++)); mkdirSync(path); return path; };
const put = (path, doc) => { writeFileSync(path, stringify(doc, { lineWidth: 0 })); return path; };
const beside = folder();
for (const file of readdirSync(join(ROOT, 'samples')).filter((f) => f.endsWith('.yaml'))) copyFileSync(join(ROOT, 'samples', file), join(beside, file));
copyFileSync(join(ROOT, 'templates/new/part.yaml'), join(beside, 'part.yaml'));
const kinds = {
  part: { validate: schema('part'), judge: (doc) => run('check', put(join(folder(), 'part.yaml'), doc), '--shop', SHOP) },
  // Beside the part files that it names.
  request: { validate: schema('request'), judge: (doc) => run('check', put(join(beside, `request-${number++}.yaml`), doc), '--shop', SHOP) },
  week: { validate: schema('week'), judge: (doc) => run('load', put(join(beside, `week-${number++}.yaml`), doc), '--shop', SHOP, '--jobs', '1') },
  shop: { validate: schema('shop'), judge: (doc) => { const dir = folder(); put(join(dir, 'shop.yaml'), doc); return run('rates', '--shop', dir); } },
  columns: { validate: schema('columns'), judge: (doc) => {
    const dir = folder();
    const list = join(dir, 'list.csv');
    writeFileSync(list, 'Sachnr,Wst,Kontur\nX-1,C45,30 x40\n');
    return run('quote', list, '--shop', SHOP, '--columns', put(join(dir, 'layout.yaml'), doc));
  } },
  words: { validate: schema('words'), judge: (doc) => {
    const dir = folder();
    mkdirSync(join(dir, 'templates'));
    put(join(dir, 'shop.yaml'), { policy: [] });
    put(join(dir, 'templates/words.en.yaml'), doc);
    return run('offer', join(ROOT, 'samples/10-request.yaml'), '--shop', dir, '--provisional');
  } },
};
const structural = /unknown key|unknown section| lacks '|without a name|found (a list|a map|nothing)|expected one of |a list of records/;

const corpus = [];
for (const file of readdirSync(join(ROOT, 'samples')).filter((f) => f.endsWith('.yaml') && !f.includes('family')))
  corpus.push([file.includes('request') ? 'request' : file.includes('week') ? 'week' : 'part', file, load('samples', file), file.includes('request') || file.startsWith('06') ? '' : 'as it is']);
corpus.push(['part', 'every-key', load('tests/document/every-key.yaml')], ['part', 'new part', load('templates/new/part.yaml')]);
// A small week, so that it is planned at once.
const week = load('samples/12-week.yaml');
week.orders = [{ ...week.orders[0], finished: [10], release: '2026-12-08', state: 'quoted', probability: 0.5, importance: 2 }];
week.machines = week.machines.slice(0, 2);
week.people = week.people.slice(2, 4);
week.shifts[0].days = ['Mon-Thu', 'Fri', '2026-12-13'];
week.groups = [{ name: 'CNC', machines: ['Tarn CNC 1', 'Tarn CNC 2'] }];
Object.assign(week.people[0], { machines: ['CNC'], sets: ['CNC'] });
Object.assign(week.orders[0], { customer: 'Orrin Winches', 'day late': '300 EUR', material: [{ operation: 20, from: '2026-12-09 08:00' }],
  'not on': [{ operation: 20, machine: ['Tarn CNC 1'] }], pin: [{ operation: 20, machine: 'CNC' }] });
corpus.push(['week', 'a small week', week], ['week', 'new week', (({ machines: [m, ...more], ...rest }) => ({ ...rest, machines: [{ ...m, machine: 'Tarn CNC 1' }, ...more] }))(load('templates/new/week.yaml'))]);
// The words of a quotation as a shop's own file: its sentences of the catalogue, by their ids; of a plural form that of many.
const words = (language) => Object.fromEntries(Object.entries(load(`templates/words/${language}/screen.yaml`)).filter(([id]) => id.startsWith('offer.'))
  .map(([id, said]) => [id, typeof said === 'object' ? said.other : said]));
corpus.push(['words', 'English', words('en')], ['words', 'German', words('de')]);
corpus.push(['columns', 'a layout', { units: 'metric', columns: { Sachnr: 'number', Wst: 'material', Kontur: 'outside' } }]);
const request = load('samples/10-request.yaml');
const [{ part }] = request.parts;
corpus.push(['request', 'every key of an order', {
  ...request,
  order: { payment: '30 days', rebate: '3 %', tax: '19 %', charges: [{ what: 'freight', price: '85 EUR' }], 'price clause': { of: 'bar', base: '1.85 EUR/kg', date: '2026-11-16' } },
  delivery: { ...request.delivery, 'over delivery': '5 %', 'under delivery': '2 %', overrun: 'free' },
  parts: [{ part, quantities: [10, 50], 'lead time': ['3 weeks', '10 days'] }, { part, 'not offered': 'too long' }, { part, option: 'drawn bar', condition: 'drawn', margin: '12 %' }],
}]);
corpus.push(['shop', 'new shop', load('templates/new/shop.yaml')], ['request', 'new request', load('templates/new/request.yaml')]);
for (const file of readdirSync(SHOP).filter((f) => f.endsWith('.yaml'))) corpus.push(['shop', file, load('samples/shop', file), 'as it is']);
const sections = {};
for (const file of readdirSync(join(ROOT, 'rates')).filter((f) => f.endsWith('.yaml')))
  for (const [section, records] of Object.entries(load('rates', file)))
    if (Array.isArray(records)) {
      // All records are read as they stand; that with the most keys is changed.
      corpus.push(['shop', `all ${section}`, { [section]: records }, 'as it is']);
      sections[section] = records.reduce((a, b) => (Object.keys(b).length > Object.keys(a).length ? b : a));
    }
corpus.push(['shop', 'other machines and customers', { 'other machines': [{ name: 'mill', rate: '64 EUR/h', source: 'trial', basis: 'typical' }], customers: [{ name: 'Orrin Winches', margin: '12 %', discount: '2 %', rebate: '3 %', payment: '30 days', source: 'letter', basis: 'own records' }] }]);
// What only a shop's own file says: a material, a grade and its rows that lean on shipped ones.
const own = { source: 'trials', basis: 'own records' };
corpus.push(['shop', 'own inserts', {
  materials: [{ name: 'our bronze', like: 'Rg7', price: '15 EUR/kg' }],
  grades: [{ name: 'P25', like: 'coated carbide', ...own }],
  'cutting rows': [{ name: 'C45 with P25', group: 'medium carbon steel', hardness: '150-230', grade: 'P25', for: ['part off'], 'reference life': '20 min', depth: [3], feed: [0.1], speed: [120], ...own }],
}]);
for (const [section, record] of Object.entries(sections)) corpus.push(['shop', section, { [section]: [record] }]);

function* changed(doc) {
  const clone = () => structuredClone(doc);
  const at = (root, path) => path.reduce((node, key) => node[key], root);
  function* walk(node, path) {
    if (path.length) {
      const set = (value) => { const c = clone(); at(c, path.slice(0, -1))[path.at(-1)] = value; return c; };
      const where = path.join(' / ');
      yield [`${where} as a map`, set({ zzz: 1 })];
      yield [`${where} as a list of lists`, set([['x', 'y'], ['z']])];
      yield [`${where} as nothing`, set(null)];
      if (typeof path.at(-1) === 'string') { const c = clone(); delete at(c, path.slice(0, -1))[path.at(-1)]; yield [`without ${where}`, c]; }
    }
    if (node && typeof node === 'object' && !Array.isArray(node)) {
      const c = clone();
      at(c, path).zzz = 1;
      yield [`${path.join(' / ')} / zzz`, c];
    }
    if (node && typeof node === 'object')
      for (const key of Object.keys(node)) yield* walk(node[key], [...path, Array.isArray(node) ? Number(key) : key]);
  }
  yield* walk(doc, []);
}

const cases = [];
for (const [kind, name, doc, only] of corpus) {
  cases.push([kind, `${name} as it is`, doc, true]);
  if (!only) for (const [what, other] of changed(doc)) cases.push([kind, `${name}: ${what}`, other, false]);
}
// A material that is shipped lends what a record leaves out; which are, no schema knows.
const shippedAlone = /a record of materials lacks '(group|elastic modulus|source|basis)'/;
const wrong = [];
let next = 0, refused = 0;
const worker = async () => {
  while (next < cases.length) {
    const [kind, name, doc, good] = cases[next++];
    const valid = kinds[kind].validate(doc);
    const why = kinds[kind].validate.errors?.map((e) => `${e.instancePath} ${e.message}`).slice(0, 3).join('; ');
    const { status, err } = await kinds[kind].judge(doc);
    refused += valid ? 0 : 1;
    if (good && (!valid || (status === 2 && !name.startsWith('every-key') && !name.startsWith('all ')))) wrong.push(`${name}: should be good: ${why ?? err}`);
    else if (!valid && status !== 2) wrong.push(`${kind}, ${name}: only the schema refuses: ${why}`);
    else if (valid && status === 2 && structural.test(err) && !shippedAlone.test(err)) wrong.push(`${kind}, ${name}: only the reader refuses: ${err.trim().split('\n')[0]}`);
  }
};
// What is written is judged too: every command with --json against the schema of its name.
const weekly = join(ROOT, 'samples/12-week.yaml');
const outputs = [['load', [weekly]], ['promise', [weekly, join(ROOT, 'samples/01-winch-spindle.yaml'), '10']], ['actuals', [weekly, join(ROOT, 'samples/12-booked.csv')]], ['rates', []], ['figure', ['spindle-speed', 'surface-speed=100ft/min', 'diameter=2in']],
  ['cut', ['C45', '50 to 42 x120', '--at', '300 rev/min, 0.1 mm/rev, 1 mm']], ['cut', ['C45', 'tap M10 x20']], ['card', ['--machine', 'Tarn geared lathe']]];
for (const sample of readdirSync(join(ROOT, 'samples')).filter((f) => f.endsWith('.yaml') && !/request|family|week/.test(f)))
  for (const command of ['quote', 'route', 'compare']) outputs.push([command, [join(ROOT, 'samples', sample)]]);
// Drafts of models, where the plug-in that reads them is built.
const solids = join(dirname(TURNWRIGHT), 'tests/write_solids');
if (existsSync(solids)) {
  const made = folder();
  execFileSync(solids, ['made', made], { stdio: 'ignore' });
  for (const name of ['flange', 'bush-nurbs', 'hexagon-bolt', 'face-groove', 'block']) outputs.push(['draft', [join(made, `${name}.step`)]]);
}
for (const [command, words] of outputs) {
  let out;
  try { out = execFileSync(TURNWRIGHT, [command, ...words, ...(command === 'figure' ? [] : ['--shop', SHOP]), '--json'], { maxBuffer: 1 << 28, stdio: ['ignore', 'pipe', 'ignore'] }); } catch (no) { assert.equal(no.status, 1, `${command} ${words}`); out = no.stdout; }
  const validate = ajv.getSchema(command) ?? ajv.compile({ ...JSON.parse(readFileSync(join(ROOT, 'rates/schema', `${command}.json`), 'utf8')), $id: command });
  assert.ok(validate(JSON.parse(out)), `${command} ${words}: ${JSON.stringify(validate.errors?.slice(0, 3))}`);
}
try {
  await Promise.all(Array.from({ length: cpus().length + 1 }, worker));
  assert.deepEqual(wrong.slice(0, 20), [], `${wrong.length} of ${cases.length} judged differently`);
  assert.ok(refused > 500 && cases.length - refused > 100);
} finally {
  rmSync(work, { recursive: true, force: true });
}
console.log(`${cases.length} files judged alike by schema and reader, ${refused} of them refused; ${outputs.length} outputs valid`);
