import { html } from './html.ts';

/** The cautions that every page carries. */
export const cautions = html`<section class="caution" aria-labelledby="cautions">
<h2 id="cautions">Cautions</h2>
<p><strong>This page says which logged readings meet or miss which limit. It does not say that a system is safe.</strong> Certified technicians and local codes decide.</p>
<ul class="notes">
<li>Pressure-test with dry nitrogen only, never with oxygen or air, through a regulator and with a relief device.</li>
<li>A rise test is no leak test: a vacuum pulls with one atmosphere only. The leak test is the standing pressure test.</li>
<li>A longer test sees smaller leaks; a higher pressure than the equipment’s rating is never the way.</li>
<li>Never run a compressor while the system is in vacuum.</li>
<li>With flammable refrigerants (A2L, A3): no ignition sources, ventilate, and follow the maker’s instructions.</li>
<li>Recover refrigerant; never vent it.</li>
</ul>
</section>`;
