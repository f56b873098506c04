// The inside page and the offer in a real browser, headless: nothing is fetched, nothing goes wrong,
// every text has contrast, the keyboard reaches everything, the arrow keys step, paper shows all.
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium } from 'playwright-core';

const { ROOT, TURNWRIGHT } = process.env;
const SHOP = join(ROOT, 'samples/shop');
const work = mkdtempSync(join(tmpdir(), 'pages-'));
const write = (command, sample, name, ...more) => {
  const out = join(work, name);
  execFileSync(TURNWRIGHT, [command, join(ROOT, 'samples', sample), '--shop', SHOP, '--output', out, ...more], { stdio: 'ignore' });
  return out;
};
// Page, most pages on paper, A4 and Letter: what was seen when the pages were looked at.
const pages = [
  ['01-winch-spindle.yaml', 3], ['02-bush-blank.yaml', 3], ['03-pivot-pin-inch.yaml', 3],
  ['05-hoist-spindle.yaml', 3], ['06-guide-bush.yaml', 3], ['07-cover-flange.yaml', 3], ['09-clevis-pin.yaml', 4],
].map(([sample, most]) => ({ file: write('quote', sample, sample.replace('yaml', 'html')), most, steps: true }));
// A week is not on time, which is an answer and no fault.
// A page an operation, on paper too.
pages.push({ file: write('route', '01-winch-spindle.yaml', 'sheet.html'), most: 2 }, { file: write('route', '06-guide-bush.yaml', 'sheet-de.html', '--language', 'de'), most: 2 });
pages.push({ file: write('offer', '10-request.yaml', 'provisional.html', '--provisional'), most: 1 });
const week = join(work, 'week.html');
try {
  execFileSync(TURNWRIGHT, ['load', join(ROOT, 'samples/12-week.yaml'), '--shop', SHOP, '--output', week], { stdio: 'ignore' });
} catch (no) {
  assert.equal(no.status, 1);
}
pages.push({ file: week, most: 7, inside: true, lastDay: 'Thu 31 Dec' });
pages.push({ file: write('compare', '04-two-cuts.yaml', 'methods.html'), most: 2, inside: true });
pages.push({ file: write('offer', '10-request.yaml', 'offer.html'), most: 1 });
// The speed card of every lathe of the shop: one page, on A4 and on Letter.
const card = (machine, name, ...more) => {
  const out = join(work, name);
  execFileSync(TURNWRIGHT, ['card', '--machine', machine, '--shop', SHOP, '--output', out, ...more], { stdio: 'ignore' });
  return { file: out, most: 1, inside: true };
};
for (const machine of ['Tarn CNC 1', 'Tarn bar lathe', 'Tarn geared lathe', 'Tarn heavy lathe']) {
  const file = machine.replaceAll(' ', '-');
  pages.push(card(machine, `${file}.html`), card(machine, `${file}-inch.html`, '--units', 'inch'), card(machine, `${file}-de.html`, '--language', 'de'));
}
pages.push({ file: write('offer', '10-request.yaml', 'angebot.html', '--language', 'de'), most: 1 });

// WCAG 2.1, relative luminance and contrast ratio, of every text on what lies behind it.
const worstContrast = () => {
  const rgb = (text) => (text.match(/[\d.]+/g) ?? []).map(Number);
  const light = ([r, g, b]) => [r, g, b].map((c) => c / 255).map((c) => (c <= 0.03928 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4))
    .reduce((sum, c, i) => sum + c * [0.2126, 0.7152, 0.0722][i], 0);
  const ground = (e) => {
    // A text of a picture lies on the last shape drawn under it.
    if (e.ownerSVGElement && e.tagName === 'text') {
      const b = e.getBoundingClientRect();
      const [x, y] = [b.x + b.width / 2, b.y + b.height / 2];
      for (let n = e.previousElementSibling; n; n = n.previousElementSibling) {
        const r = n.getBoundingClientRect();
        const fill = rgb(getComputedStyle(n).fill);
        if (n.tagName === 'rect' && fill.length >= 3 && r.left <= x && x <= r.right && r.top <= y && y <= r.bottom) return fill;
      }
    }
    for (let n = e; n; n = n.parentElement) {
      const c = rgb(getComputedStyle(n).backgroundColor);
      if (c.length === 3 || c[3] > 0) return c;
    }
    return [255, 255, 255];
  };
  let worst = { ratio: 99 }, texts = 0;
  for (const e of document.body.querySelectorAll('*')) {
    if (![...e.childNodes].some((n) => n.nodeType === 3 && n.data.trim())) continue;
    if (e.tagName === 'title' || getComputedStyle(e).display === 'none' || !e.getClientRects().length) continue;
    const ink = rgb(e.ownerSVGElement ? getComputedStyle(e).fill : getComputedStyle(e).color);
    const [a, b] = [light(ink), light(ground(e))].sort((x, y) => y - x);
    const ratio = (a + 0.05) / (b + 0.05);
    ++texts;
    if (ratio < worst.ratio) worst = { ratio, text: e.textContent.slice(0, 40) };
  }
  return { ...worst, texts };
};

const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync'],
});
let texts = 0, stops = 0, sheets = 0, stepped = 0, worst = 99;
try {
  for (const { file, most, steps, inside, lastDay } of pages) {
    const source = readFileSync(file, 'utf8');
    assert.ok(statSync(file).size <= 300 * 1024, `${file} is larger than 300 KB`);
    assert.doesNotMatch(source, /<script|https?:|url\(|@import|javascript:| on[a-z]+="/, file);
    for (const colorScheme of ['light', 'dark']) {
      const context = await browser.newContext({ colorScheme, viewport: { width: 1100, height: 900 }, javaScriptEnabled: true });
      const page = await context.newPage();
      const wrong = [];
      page.on('console', (m) => wrong.push(`console: ${m.text()}`));
      page.on('pageerror', (e) => wrong.push(`error: ${e.message}`));
      page.on('request', (r) => r.url() === `file://${file}` || wrong.push(`request: ${r.url()}`));
      await page.goto(`file://${file}`);
      const found = await page.evaluate(worstContrast);
      assert.ok(found.ratio >= 4.5, `${file}, ${colorScheme}: '${found.text}' has ${found.ratio.toFixed(2)}:1`);
      texts += found.texts;
      worst = Math.min(worst, found.ratio);
      for (const width of [1100, 420]) {
        await page.setViewportSize({ width, height: 900 });
        const over = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
        assert.ok(over <= 0, `${file}: ${over} px wider than a screen of ${width}`);
        // What a picture says can be read on a screen and on a phone.
        if (steps) {
          const smallest = await page.evaluate(() => Math.min(...[...document.querySelectorAll('svg text')].filter((e) => e.getClientRects().length)
            .map((e) => parseFloat(getComputedStyle(e).fontSize) * e.getScreenCTM().a)));
          assert.ok(smallest >= 13, `${file}: a label of ${smallest} px on a screen of ${width}`);
        }
      }
      await page.setViewportSize({ width: 1100, height: 900 });
      if (steps && colorScheme === 'light') {
        // Tab goes once through everything that can be reached, in the order of the page, and shows where it is.
        const wanted = await page.evaluate(() => [...document.querySelectorAll('a[href], input:checked, summary, [tabindex="0"]')].filter((e) => e.checkVisibility()).map((e, i) => (e.dataset.stop = String(i))));
        for (const stop of wanted) {
          await page.keyboard.press('Tab');
          const at = await page.evaluate(() => {
            const e = document.activeElement;
            const shown = e.tagName === 'INPUT' ? e.nextElementSibling : e;
            return { stop: e.dataset.stop, outline: getComputedStyle(shown).outlineStyle };
          });
          assert.deepEqual(at, { stop, outline: 'solid' }, file);
          ++stops;
        }
        // The arrow keys step through an operation: one picture at a time.
        for (const id of await page.evaluate(() => [...document.querySelectorAll('fieldset.step')].map((f) => f.id))) {
          const count = await page.locator(`#${id} input`).count();
          await page.locator(`#${id} input`).first().focus();
          for (let k = 1; k <= count; ++k) {
            const seen = await page.evaluate((i) => [...document.querySelectorAll(`#${i} figure`)].map((f, n) => (f.getClientRects().length ? n + 1 : 0)).filter(Boolean), id);
            assert.deepEqual(seen, [k], `${file}: ${id}`);
            await page.keyboard.press('ArrowRight');
            ++stepped;
          }
        }
      }
      if (colorScheme === 'light') {
        await page.emulateMedia({ media: 'print' });
        if (steps) {
          const pictures = await page.evaluate(() => [...document.querySelectorAll('fieldset.step')].map((f) => [...f.querySelectorAll('figure')].filter((g) => g.getClientRects().length).length));
          assert.ok(pictures.length > 0 && pictures.every((n) => n === 1), `${file}: an operation without its picture on paper, or with several`);
        }
        if (lastDay) {
          // The schedule ends within the paper.
          const cut = await page.evaluate((day) => {
            const label = [...document.querySelectorAll('svg text')].filter((e) => e.textContent === day).pop();
            return !label || label.getBoundingClientRect().right > document.documentElement.clientWidth;
          }, lastDay);
          assert.ok(!cut, `${file}: ${lastDay} is not on paper`);
        }
        const printed = async (how) => (await page.pdf({ ...how, printBackground: true })).toString('latin1');
        const sheetsOf = (bytes) => (bytes.match(/\/Type\s*\/Page\b(?!s)/g) ?? []).length;
        const pdf = await printed({ preferCSSPageSize: true });
        const count = sheetsOf(pdf);
        assert.ok(count >= 1 && count <= most, `${file}: ${count} pages on paper`);
        if (steps) {
          const letter = sheetsOf(await printed({ format: 'Letter' }));
          assert.ok(letter <= most, `${file}: ${letter} pages of Letter`);
        }
        if (!steps && !inside) assert.match(pdf, /\/MediaBox\s*\[0 0 59[45](\.\d+)? 84[12](\.\d+)?\]/, `${file} is not on A4`);
        sheets += count;
      }
      assert.deepEqual(wrong, [], file);
      await context.close();
    }
  }
} finally {
  await browser.close();
  rmSync(work, { recursive: true, force: true });
}
console.log(`${pages.length} pages, ${texts} texts of at least ${worst.toFixed(2)}:1, ${stops} stops of the tab key, ${stepped} steps, ${sheets} sheets of paper`);
