// The pictures of the README, made from the samples: node tests/output/pictures.mjs, with ROOT and TURNWRIGHT as for
// the tests. They are looked at before they are kept.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium } from 'playwright-core';

const { ROOT, TURNWRIGHT } = process.env;
const work = mkdtempSync(join(tmpdir(), 'pictures-'));
const pages = [
  // Picture, command, file, from this element to the end of that one, width.
  ['part-and-steps', ['quote', '01-winch-spindle.yaml'], 'h1', '#op20', 960],
  ['quotation', ['offer', '10-request.yaml'], 'body', 'body', 860],
  ['methods', ['compare', '04-two-cuts.yaml'], 'h1', 'main > .wide', 960],
  ['week', ['load', '12-week.yaml'], 'main > h2:nth-of-type(4)', 'main > figure:nth-of-type(2)', 960],
];
const browser = await chromium.launch({ executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium', args: ['--no-sandbox', '--disable-gpu'] });
try {
  for (const [name, [command, sample], from, to, width] of pages) {
    const file = join(work, `${name}.html`);
    try {
      execFileSync(TURNWRIGHT, [command, join(ROOT, 'samples', sample), '--shop', join(ROOT, 'samples/shop'), '--output', file], { stdio: 'ignore' });
    } catch (no) {
      if (no.status !== 1) throw no; // not on time, which is an answer
    }
    const page = await browser.newPage({ viewport: { width, height: 900 }, colorScheme: 'light' });
    await page.goto(`file://${file}`);
    const box = await page.evaluate(([first, last]) => {
      const a = document.querySelector(first).getBoundingClientRect(), b = document.querySelector(last).getBoundingClientRect();
      return { y: a.top + scrollY, height: b.bottom - a.top };
    }, [from, to]);
    await page.screenshot({ path: join(ROOT, 'templates/docs/pictures', `${name}.png`), fullPage: true, clip: { x: 0, y: Math.max(0, box.y - 12), width, height: box.height + 24 } });
    await page.close();
  }
} finally {
  await browser.close();
  rmSync(work, { recursive: true });
}
