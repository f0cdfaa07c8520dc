import { GAS_CONSTANT_J_PER_MOL_K } from '../physics/gas-constant.ts';
import { standardAtmosphere, tubeConductance, waterVapourPressure } from '../physics/index.ts';
import { valveCore } from '../physics/valve-core.ts';

/** What is evacuated: two volumes joined by a restriction, with everything that gives off gas in it. */
export interface Circuit {
  /** Volume beside the service valve, and volume behind the restriction [m³]. */
  readonly nearM3: number;
  readonly farM3: number;
  /** The restriction between them, as a tube [m]. */
  readonly couplingBoreM: number;
  readonly couplingLengthM: number;
  /** Air drawn in by leaks of the circuit, as rise of the whole volume [Pa/s]. */
  leakPaPerS: number;
  /** Outgassing: rise of the whole volume one second after the pump was first opened, falling as 1/t [Pa]. */
  readonly outgassingPa: number;
  /** Water on the walls and in the oil: pressure it tends to at the start [Pa], its time constant, and how fast it is used up [s]. */
  readonly wallWaterPa: number;
  readonly wallWaterS: number;
  readonly wallDryingS: number;
  /** Standing water [kg], and the speed at which its vapour comes off [m³/s]. */
  readonly waterKg: number;
  readonly waterM3PerS: number;
  /** Temperature of the pipes [K]. */
  readonly temperatureK: number;
  readonly altitudeM: number;
}

/** What evacuates it. */
export interface PumpTrain {
  readonly speedM3PerS: number;
  /** Lowest pressure that the pump reaches at its inlet [Pa]. */
  readonly basePa: number;
  readonly hoseBoreM: number;
  readonly hoseLengthM: number;
  /** True where the valve cores stayed in. */
  readonly coresIn: boolean;
  /** Air drawn in by the hose [Pa·m³/s]; seen by an isolated system only where the valve sits at the pump's end. */
  readonly hoseLeakPaM3PerS: number;
  readonly isolatedAtPump: boolean;
}

/** Outgassing is finite at the moment the pump is opened [s]. */
const OUTGASSING_SHIFT_S = 20;
const WATER_KG_PER_MOL = 0.018015;

/**
 * The gas in a circuit while it is pumped, isolated or broken: true pressures, by integration.
 *
 * Dry gas in two volumes, water vapour well mixed in both. Each step solves every exchange exactly for coefficients held
 * over the step, so that nothing turns negative and nothing is lost, whatever the step.
 */
export class Evacuation {
  readonly circuit: Circuit;
  readonly train: PumpTrain;
  readonly volumeM3: number;
  readonly atmospherePa: number;
  /** Dry gas near and far, and water vapour [Pa]. */
  nearGasPa: number;
  farGasPa: number;
  waterPa: number;
  /** Pressure at the pump's inlet [Pa]. */
  pumpInletPa: number;
  /** Standing water left [kg]. */
  waterLeftKg: number;
  /** Since the pump was first opened [s]; 0 before. */
  pumpedS = 0;
  /** What has come in since the last `resetRises` [Pa, as rise of the whole volume]. */
  leakRisePa = 0;
  waterRisePa = 0;
  outgassingRisePa = 0;
  readonly #saturationPa: number;
  readonly #kgPerPaM3: number;
  /** Water on the walls, as the pressure it tends to now [Pa]. */
  #wallPa: number;

  constructor(circuit: Circuit, train: PumpTrain) {
    this.circuit = circuit;
    this.train = train;
    this.volumeM3 = circuit.nearM3 + circuit.farM3;
    this.atmospherePa = standardAtmosphere(circuit.altitudeM);
    this.#saturationPa = waterVapourPressure(circuit.temperatureK);
    this.#kgPerPaM3 = WATER_KG_PER_MOL / (GAS_CONSTANT_J_PER_MOL_K * circuit.temperatureK);
    this.#wallPa = Math.min(circuit.wallWaterPa, this.#saturationPa);
    this.waterLeftKg = circuit.waterKg;
    this.waterPa = this.waterLeftKg > 0 ? this.#saturationPa : this.#wallPa;
    this.nearGasPa = this.atmospherePa - this.waterPa;
    this.farGasPa = this.nearGasPa;
    this.pumpInletPa = this.atmospherePa;
  }

  /** Pressure at the service valve [Pa]. */
  get systemPa(): number {
    return this.nearGasPa + this.waterPa;
  }

  /** Mean pressure of both volumes [Pa]. */
  get meanPa(): number {
    const { nearM3, farM3 } = this.circuit;
    return (this.nearGasPa * nearM3 + this.farGasPa * farM3) / this.volumeM3 + this.waterPa;
  }

  /** Pressure that the water left in the circuit would tend to [Pa]. */
  get waterTendencyPa(): number {
    return this.waterLeftKg > 0 ? this.#saturationPa : this.#wallPa;
  }

  /** Starts the account of what comes in anew. */
  resetRises(): void {
    this.leakRisePa = 0;
    this.waterRisePa = 0;
    this.outgassingRisePa = 0;
  }

  /** Lets gas in up to a pressure [Pa]: nitrogen, or the refrigerant itself. */
  fill(toPa: number): void {
    this.nearGasPa = Math.max(this.nearGasPa, toPa - this.waterPa);
    this.farGasPa = Math.max(this.farGasPa, toPa - this.waterPa);
    this.pumpInletPa = this.systemPa;
  }

  /** Opens the circuit down to the atmosphere, where it is above. */
  vent(): void {
    const excess = Math.max(1, this.systemPa / this.atmospherePa);
    this.nearGasPa /= excess;
    this.farGasPa /= excess;
    this.waterPa /= excess;
    this.pumpInletPa = this.systemPa;
  }

  /** Moves on by `durationS`, in steps of at most 1 s while pumping, finer while the pressure falls fast. */
  advance(durationS: number, pumping: boolean): void {
    let leftS = durationS;
    while (leftS > 1e-9) {
      const stepS = Math.min(leftS, pumping ? (this.systemPa > 2000 ? 0.1 : this.systemPa > 200 ? 0.5 : 1) : 5);
      this.#step(stepS, pumping);
      leftS -= stepS;
    }
  }

  #pumpSpeed(): number {
    const { speedM3PerS, basePa, hoseBoreM, hoseLengthM, coresIn } = this.train;
    const systemPa = this.systemPa;
    const meanPa = (systemPa + this.pumpInletPa) / 2;
    let conductance = tubeConductance(hoseBoreM, hoseLengthM, meanPa);
    if (coresIn) {
      const core = tubeConductance(valveCore.boreM, valveCore.lengthM, meanPa);
      conductance = (conductance * core) / (conductance + core);
    }
    const inletPa = (conductance * systemPa + speedM3PerS * basePa) / (conductance + speedM3PerS);
    this.pumpInletPa = Math.max(inletPa, basePa);
    return (conductance * Math.max(0, systemPa - this.pumpInletPa)) / systemPa;
  }

  #step(stepS: number, pumping: boolean): void {
    const { circuit, train, volumeM3 } = this;
    const { nearM3, farM3 } = circuit;
    const speed = pumping ? this.#pumpSpeed() : 0;
    if (pumping || this.pumpedS > 0) this.pumpedS += stepS;

    // The two volumes even out through the restriction; the mean stays.
    const coupling = tubeConductance(
      circuit.couplingBoreM,
      circuit.couplingLengthM,
      (this.nearGasPa + this.farGasPa) / 2 + this.waterPa,
    );
    const gasPa = (this.nearGasPa * nearM3 + this.farGasPa * farM3) / volumeM3;
    const apartPa = (this.farGasPa - this.nearGasPa) * Math.exp(-coupling * (1 / nearM3 + 1 / farM3) * stepS);
    this.nearGasPa = gasPa - (apartPa * farM3) / volumeM3;
    this.farGasPa = gasPa + (apartPa * nearM3) / volumeM3;

    // Air and other dry gas come in, the pump takes dry gas out of the near volume.
    const below = Math.max(0, 1 - (this.systemPa / this.atmospherePa) ** 2);
    const hosePaM3PerS = pumping || train.isolatedAtPump ? train.hoseLeakPaM3PerS * below : 0;
    const leakPaPerS = circuit.leakPaPerS * below;
    const outgassingPaPerS = this.pumpedS > 0 ? circuit.outgassingPa / (this.pumpedS + OUTGASSING_SHIFT_S) : 0;
    const gasPaPerS = leakPaPerS + outgassingPaPerS;
    const nearPaPerS = gasPaPerS + hosePaM3PerS / nearM3;
    this.leakRisePa += (leakPaPerS + hosePaM3PerS / volumeM3) * stepS;
    this.outgassingRisePa += outgassingPaPerS * stepS;
    this.farGasPa += gasPaPerS * stepS;
    if (speed > 0) {
      const rate = speed / nearM3;
      const towardsPa = nearPaPerS / rate;
      this.nearGasPa = towardsPa + (this.nearGasPa - towardsPa) * Math.exp(-rate * stepS);
    } else this.nearGasPa += nearPaPerS * stepS;

    this.#waterStep(stepS, speed);
    if (!pumping) this.pumpInletPa = this.systemPa;
  }

  /** Vapour of standing water and of the walls, against the pump. */
  #waterStep(stepS: number, speed: number): void {
    const { circuit, volumeM3 } = this;
    const free = this.waterLeftKg > 0 ? circuit.waterM3PerS : 0;
    const wall = volumeM3 / circuit.wallWaterS;
    const total = speed + free + wall;
    const towardsPa = (free * this.#saturationPa + wall * this.#wallPa) / total;
    const rate = total / volumeM3;
    const decay = Math.exp(-rate * stepS);
    const meanPa = towardsPa + ((this.waterPa - towardsPa) * (1 - decay)) / (rate * stepS);
    this.waterPa = towardsPa + (this.waterPa - towardsPa) * decay;
    const freePaM3 = free * (this.#saturationPa - meanPa) * stepS;
    const wallPaM3 = wall * (this.#wallPa - meanPa) * stepS;
    this.waterRisePa += (freePaM3 + wallPaM3) / volumeM3;
    this.waterLeftKg = Math.max(0, this.waterLeftKg - freePaM3 * this.#kgPerPaM3);
    // The wall holds `wallDryingS / wallWaterS` times what the volume holds at the pressure it tends to.
    this.#wallPa -= (wallPaM3 / volumeM3) * (circuit.wallWaterS / circuit.wallDryingS);
  }
}
