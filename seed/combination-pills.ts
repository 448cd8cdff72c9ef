import type { Drug, DrugClass, RasKind } from "./formulary"

function pill(
  name: string,
  classes: readonly DrugClass[],
  steps: readonly string[],
  more: { weight: number; atc: string; rasKind: RasKind | null; spellings?: readonly string[] },
): Drug {
  return {
    name,
    spellings: more.spellings ?? [],
    classes,
    rasKind: more.rasKind,
    steps,
    unit: "tablet",
    timesPerDay: 1,
    atc: more.atc,
    weight: more.weight,
  }
}

/** Combination pills, in the spellings that records hold. */
export const pills: readonly Drug[] = [
  pill("amlodipine/valsartan", ["ras_blocker", "calcium_channel_blocker"], ["5/160", "10/160", "10/320"], {
    weight: 3,
    atc: "C09DB01",
    rasKind: "arb",
    spellings: ["valsartan-amlodipine", "Valsartan + Amlodipine"],
  }),
  pill("amlodipine/benazepril", ["ras_blocker", "calcium_channel_blocker"], ["5/20", "10/20", "10/40"], {
    weight: 3,
    atc: "C09BB13",
    rasKind: "ace_inhibitor",
    spellings: ["benazepril & amlodipine"],
  }),
  pill("amlodipine/olmesartan", ["ras_blocker", "calcium_channel_blocker"], ["5/20", "5/40", "10/40"], {
    weight: 1,
    atc: "C09DB02",
    rasKind: "arb",
  }),
  pill("losartan/hydrochlorothiazide", ["ras_blocker", "diuretic"], ["50/12.5", "100/12.5", "100/25"], {
    weight: 4,
    atc: "C09DA01",
    rasKind: "arb",
    spellings: ["losartan-HCTZ", "losartan potassium and hydrochlorothiazide"],
  }),
  pill("lisinopril/hydrochlorothiazide", ["ras_blocker", "diuretic"], ["10/12.5", "20/12.5", "20/25"], {
    weight: 4,
    atc: "C09BA03",
    rasKind: "ace_inhibitor",
    spellings: ["lisinopril-HCTZ", "lisinopril w/ HCTZ"],
  }),
  pill("azilsartan/chlorthalidone", ["ras_blocker", "diuretic"], ["40/12.5", "40/25"], {
    weight: 1,
    atc: "C09DA09",
    rasKind: "arb",
  }),
  pill(
    "amlodipine/valsartan/hydrochlorothiazide",
    ["ras_blocker", "calcium_channel_blocker", "diuretic"],
    ["5/160/12.5", "10/160/25", "10/320/25"],
    { weight: 1.5, atc: "C09DX01", rasKind: "arb", spellings: ["amlodipine-valsartan-HCTZ"] },
  ),
  pill("atenolol/chlorthalidone", ["beta_blocker", "diuretic"], ["50/25", "100/25"], {
    weight: 0.6,
    atc: "C07CB03",
    rasKind: null,
    spellings: ["atenolol with chlortalidone", "co-tenidone"],
  }),
]
