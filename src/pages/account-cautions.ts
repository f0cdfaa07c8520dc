import { html } from './html.ts';

/** The cautions of a page about refrigerant. */
export const accountCautions = html`<section class="caution" aria-labelledby="cautions">
<h2 id="cautions">Cautions</h2>
<p><strong>This page says what weighings and records add up to. It does not say that a system is safe or tight, and it is no legal advice.</strong> Certified technicians, local codes and the rules’ own text decide.</p>
<ul class="notes">
<li>Recover refrigerant; never vent it.</li>
<li>Fill a recovery cylinder to 80% of its liquid volume at most, and never mix refrigerants in it.</li>
<li>Put on pressure with dry nitrogen only, never with oxygen or air, through a regulator and with a relief device.</li>
<li>With flammable refrigerants (A2L, A3): no ignition sources, ventilate, and follow the maker’s instructions.</li>
<li>What is missing may have leaked, been used and not written down, been weighed wrongly, or been taken. No figure here is a measure of a person.</li>
</ul>
</section>`;
