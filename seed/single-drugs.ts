import type { Drug, DrugClass, RasKind } from "./formulary"

function single(
  drugClass: DrugClass,
  name: string,
  steps: readonly number[],
  more: { weight: number; atc: string; spellings?: readonly string[]; times?: number; rasKind?: RasKind },
): Drug {
  return {
    name,
    spellings: more.spellings ?? [],
    classes: [drugClass],
    rasKind: more.rasKind ?? null,
    steps,
    unit: "mg",
    timesPerDay: more.times ?? 1,
    atc: more.atc,
    weight: more.weight,
  }
}

/** ATC codes: WHO Collaborating Centre for Drug Statistics Methodology, ATC index 2026. */
export const aceInhibitors: readonly Drug[] = [
  single("ras_blocker", "lisinopril", [5, 10, 20, 40], {
    weight: 10,
    atc: "C09AA03",
    rasKind: "ace_inhibitor",
    spellings: ["lisinopril dihydrate"],
  }),
  single("ras_blocker", "ramipril", [2.5, 5, 10], { weight: 5, atc: "C09AA05", rasKind: "ace_inhibitor" }),
  single("ras_blocker", "benazepril", [10, 20, 40], {
    weight: 2,
    atc: "C09AA07",
    rasKind: "ace_inhibitor",
    spellings: ["benazepril hydrochloride", "benazepril HCl"],
  }),
  single("ras_blocker", "enalapril", [5, 10, 20], {
    weight: 2,
    atc: "C09AA02",
    rasKind: "ace_inhibitor",
    times: 2,
    spellings: ["enalapril maleate"],
  }),
  single("ras_blocker", "perindopril", [4, 8], {
    weight: 1,
    atc: "C09AA04",
    rasKind: "ace_inhibitor",
    spellings: ["perindopril erbumine", "perindopril tert-butylamine"],
  }),
]

export const arbs: readonly Drug[] = [
  single("ras_blocker", "losartan", [25, 50, 100], {
    weight: 10,
    atc: "C09CA01",
    rasKind: "arb",
    spellings: ["losartan potassium"],
  }),
  single("ras_blocker", "valsartan", [80, 160, 320], { weight: 4, atc: "C09CA03", rasKind: "arb" }),
  single("ras_blocker", "irbesartan", [150, 300], { weight: 3, atc: "C09CA04", rasKind: "arb" }),
  single("ras_blocker", "olmesartan", [20, 40], {
    weight: 2,
    atc: "C09CA08",
    rasKind: "arb",
    spellings: ["olmesartan medoxomil"],
  }),
  single("ras_blocker", "candesartan", [8, 16, 32], {
    weight: 2,
    atc: "C09CA06",
    rasKind: "arb",
    spellings: ["candesartan cilexetil"],
  }),
  single("ras_blocker", "telmisartan", [40, 80], { weight: 1.5, atc: "C09CA07", rasKind: "arb" }),
]

export const channelBlockers: readonly Drug[] = [
  single("calcium_channel_blocker", "amlodipine", [2.5, 5, 10], {
    weight: 16,
    atc: "C08CA01",
    spellings: ["amlodipine besylate", "amlodipine (as besilate)", "Amlodipine Besilate"],
  }),
  single("calcium_channel_blocker", "nifedipine ER", [30, 60, 90], {
    weight: 3,
    atc: "C08CA05",
    spellings: ["nifedipine XL", "nifedipine modified-release"],
  }),
  single("calcium_channel_blocker", "felodipine", [2.5, 5, 10], { weight: 1, atc: "C08CA02" }),
  single("calcium_channel_blocker", "diltiazem ER", [120, 240, 360], {
    weight: 1.5,
    atc: "C08DB01",
    spellings: ["diltiazem hydrochloride CD", "diltiazem HCl ER"],
  }),
]

export const thiazides: readonly Drug[] = [
  single("diuretic", "chlorthalidone", [12.5, 25], {
    weight: 8,
    atc: "C03BA04",
    spellings: ["chlortalidone"],
  }),
  single("diuretic", "hydrochlorothiazide", [12.5, 25], { weight: 5, atc: "C03AA03", spellings: ["HCTZ"] }),
  single("diuretic", "indapamide", [1.25, 2.5], { weight: 3, atc: "C03BA11" }),
  single("diuretic", "bendroflumethiazide", [2.5], {
    weight: 1,
    atc: "C03AA01",
    spellings: ["bendrofluazide"],
  }),
]

export const loopDiuretics: readonly Drug[] = [
  single("diuretic", "furosemide", [20, 40, 80], {
    weight: 8,
    atc: "C03CA01",
    times: 2,
    spellings: ["frusemide"],
  }),
  single("diuretic", "torsemide", [10, 20, 40], { weight: 4, atc: "C03CA04", spellings: ["torasemide"] }),
  single("diuretic", "bumetanide", [1, 2], { weight: 2, atc: "C03CA02" }),
]

export const mras: readonly Drug[] = [
  single("mineralocorticoid_antagonist", "spironolactone", [12.5, 25, 50], { weight: 8, atc: "C03DA01" }),
  single("mineralocorticoid_antagonist", "eplerenone", [25, 50], { weight: 2, atc: "C03DA04" }),
]

export const betaBlockers: readonly Drug[] = [
  single("beta_blocker", "carvedilol", [6.25, 12.5, 25], { weight: 6, atc: "C07AG02", times: 2 }),
  single("beta_blocker", "metoprolol succinate", [25, 50, 100, 200], {
    weight: 7,
    atc: "C07AB02",
    spellings: ["metoprolol succ ER", "metoprolol (as succinate)"],
  }),
  single("beta_blocker", "bisoprolol", [2.5, 5, 10], {
    weight: 3,
    atc: "C07AB07",
    spellings: ["bisoprolol fumarate", "bisoprolol hemifumarate"],
  }),
  single("beta_blocker", "labetalol", [100, 200, 300], { weight: 1.5, atc: "C07AG01", times: 2 }),
  single("beta_blocker", "atenolol", [25, 50, 100], { weight: 1.5, atc: "C07AB03" }),
]

export const alphaBlockers: readonly Drug[] = [
  single("alpha1_blocker", "doxazosin", [1, 2, 4, 8], {
    weight: 8,
    atc: "C02CA04",
    spellings: ["doxazosin mesylate", "doxazosin (as mesilate)"],
  }),
  single("alpha1_blocker", "terazosin", [2, 5, 10], { weight: 1.5, atc: "G04CA03" }),
]

export const centralAgonists: readonly Drug[] = [
  single("central_agonist", "clonidine", [0.1, 0.2], {
    weight: 6,
    atc: "C02AC01",
    times: 2,
    spellings: ["clonidine HCl"],
  }),
  single("central_agonist", "moxonidine", [0.2, 0.4], { weight: 1, atc: "C02AC05" }),
  single("central_agonist", "methyldopa", [250, 500], { weight: 0.7, atc: "C02AB01", times: 2 }),
]

export const vasodilators: readonly Drug[] = [
  single("vasodilator", "hydralazine", [25, 50, 100], {
    weight: 8,
    atc: "C02DB02",
    times: 3,
    spellings: ["hydralazine hydrochloride"],
  }),
  single("vasodilator", "minoxidil", [2.5, 5, 10], { weight: 2, atc: "C02DC01" }),
]
