import { parse } from "csv-parse/sync"
import { readFileSync } from "node:fs"
import { describe, expect, it, test } from "vitest"
import { z } from "zod"

const Rows = z.array(z.record(z.string(), z.string()))

function readRows(path: string): Record<string, string>[] {
  const file = readFileSync(new URL(`../../../${path}`, import.meta.url), "utf8")
  return Rows.parse(parse(file, { columns: true }))
}

const list = (cell: string | undefined) => (cell === undefined || cell === "" ? [] : cell.split(";"))
const ingredients = readRows("lib/clinical/codes/drug-ingredients.csv")
const names = readRows("lib/clinical/codes/drug-names.csv")
const combinations = readRows("lib/clinical/codes/drug-combinations.csv")
const words = readRows("lib/clinical/codes/drug-words.csv")
const routes = readRows("lib/clinical/codes/route-words.csv")
const conditions = readRows("lib/clinical/codes/conditions.csv")
const groups = readRows("lib/clinical/codes/allergy-groups.csv")
const advice = readRows("lib/clinical/codes/potassium-advice.csv")
const products = readRows("lib/clinical/codes/kidney-products.csv")
const reasons = readRows("lib/clinical/codes/drug-reasons.csv")
// WHO ATC/DDD index, public extract of 2026-04-25: code and name as printed there.
const atcNames = new Map(
  readRows("tests/fixtures/vectors/atc-names.csv").map((row) => [row.code ?? "", row.name ?? ""]),
)

const classByIngredient = new Map(ingredients.map((row) => [row.ingredient ?? "", row.class ?? ""]))
const contentByCode = new Map<string, string[]>([
  ...ingredients.flatMap((row) =>
    list(row.atc).map((code): [string, string[]] => [code, [row.ingredient ?? ""]]),
  ),
  ...combinations
    .filter((row) => row.code_system === "atc")
    .map((row): [string, string[]] => [row.code ?? "", list(row.ingredients)]),
])

/** The class of each ATC group that holds blood-pressure drugs, and what in the group is none. */
const classesByGroup = [
  { group: /^C09(AA|CA|XA02|XX01)/, class: "ras_blocker", others: [] },
  { group: /^C08[CD]/, class: "calcium_channel_blocker", others: ["nimodipine", "clevidipine", "etripamil"] },
  { group: /^C03(A|B|C|DB)/, class: "diuretic", others: [] },
  { group: /^C03DA/, class: "mineralocorticoid_antagonist", others: ["finerenone"] },
  { group: /^C03X/, class: "", others: [] },
  { group: /^C07A/, class: "beta_blocker", others: ["sotalol", "esmolol", "landiolol"] },
  { group: /^(C02CA|G04CA03)/, class: "alpha1_blocker", others: [] },
  { group: /^(C02AB|C02AC)/, class: "central_agonist", others: [] },
  { group: /^C02D[BC]/, class: "vasodilator", others: [] },
  { group: /^(C02AA02|C02CC02|C02KN)/, class: "other", others: [] },
  { group: /^(C02BB|C02KX|G04CA0[124]|A10BK|C01DA)/, class: "", others: [] },
] as const

describe("the drug lists", () => {
  it("hold at least 150 ingredients, each once", () => {
    expect(new Set(classByIngredient.keys()).size).toBe(ingredients.length)
    expect(ingredients.length).toBeGreaterThanOrEqual(150)
  })

  it("name a source in every row", () => {
    const all = [
      ...ingredients,
      ...names,
      ...combinations,
      ...words,
      ...routes,
      ...conditions,
      ...groups,
      ...reasons,
      ...advice,
      ...products,
    ]

    expect(all.filter((row) => (row.source ?? "") === "")).toEqual([])
  })

  it("refer only to ingredients they hold", () => {
    const named = [...names, ...combinations].flatMap((row) => list(row.ingredients))

    expect(named.filter((ingredient) => !classByIngredient.has(ingredient))).toEqual([])
  })

  it("give no code and no name two meanings", () => {
    const codes = [
      ...ingredients.flatMap((row) => list(row.atc)),
      ...ingredients.flatMap((row) => list(row.rxcui)),
      ...combinations.map((row) => row.code ?? ""),
    ]
    const spoken = [
      ...ingredients.map((row) => row.ingredient ?? ""),
      ...names.filter((row) => row.only_alone === "").map((row) => row.name ?? ""),
      ...words.map((row) => row.word ?? ""),
      ...routes
        .filter((row) => row.applies_to === "both" || row.applies_to === "text")
        .map((row) => row.word ?? ""),
    ]

    expect(codes.filter((code, at) => codes.indexOf(code) !== at)).toEqual([])
    expect(spoken.filter((word, at) => spoken.indexOf(word) !== at)).toEqual([])
  })

  it.each([
    ["ras_blocker", ["lisinopril", "losartan", "sacubitril", "valsartan", "sparsentan", "aliskiren"]],
    ["calcium_channel_blocker", ["amlodipine", "nifedipine", "diltiazem", "verapamil"]],
    [
      "diuretic",
      ["hydrochlorothiazide", "chlortalidone", "indapamide", "furosemide", "amiloride", "triamterene"],
    ],
    ["mineralocorticoid_antagonist", ["spironolactone", "eplerenone", "canrenoate"]],
    ["beta_blocker", ["bisoprolol", "metoprolol", "carvedilol", "labetalol"]],
    ["alpha1_blocker", ["doxazosin", "prazosin", "terazosin", "indoramin", "urapidil"]],
    ["central_agonist", ["clonidine", "guanfacine", "methyldopa", "moxonidine", "rilmenidine"]],
    ["vasodilator", ["hydralazine", "dihydralazine", "minoxidil"]],
    ["other", ["reserpine", "guanethidine", "aprocitentan", "baxdrostat"]],
    ["", ["finerenone", "dapagliflozin", "isosorbide mononitrate", "sotalol", "nimodipine", "tamsulosin"]],
  ])("hold what the definitions name under the class '%s'", (name, members) => {
    // Sacubitril comes only with valsartan, which is the RAS blocker of the two.
    const counted = members.filter((member) => member !== "sacubitril")

    expect(members.filter((member) => !classByIngredient.has(member))).toEqual([])
    expect(counted.map((member) => classByIngredient.get(member))).toEqual(counted.map(() => name))
  })

  it("write every ATC code at level 5, every RxNorm code as digits and every dose as a number", () => {
    const atc = ingredients.flatMap((row) => list(row.atc))
    const rxnorm = [
      ...ingredients.flatMap((row) => list(row.rxcui)),
      ...combinations.filter((row) => row.code_system === "rxnorm").map((row) => row.code ?? ""),
    ]
    const doses = ingredients.map((row) => row.max_daily_mg ?? "").filter((dose) => dose !== "")

    expect(atc.filter((code) => !/^[A-Z]\d\d[A-Z]{2}\d\d$/.test(code))).toEqual([])
    expect(rxnorm.filter((code) => !/^\d+$/.test(code))).toEqual([])
    expect(doses.filter((dose) => !(Number(dose) > 0))).toEqual([])
    expect(
      ingredients
        .filter((row) => row.max_daily_mg !== "" && !/dose/.test(row.source ?? ""))
        .map((row) => row.ingredient),
    ).toEqual([])
  })

  // Groups of substances that raise pressure: ACC/AHA 2017 guideline, Table 14, and KDIGO 2024 (ESAs, calcineurin inhibitors).
  it.each([
    [
      "non-steroidal anti-inflammatory drugs",
      /^M01A[BCEGH]/,
      ["ibuprofen", "naproxen", "celecoxib", "diclofenac"],
    ],
    ["decongestants", /^R01BA/, ["pseudoephedrine", "phenylephrine"]],
    ["steroids", /^H02AB/, ["prednisolone", "dexamethasone", "hydrocortisone"]],
    ["calcineurin inhibitors", /^L04AD/, ["ciclosporin", "tacrolimus"]],
    ["erythropoiesis-stimulating agents", /^B03XA0[123]/, ["erythropoietin", "darbepoetin alfa"]],
    ["monoamine oxidase inhibitors", /^N06AF/, ["phenelzine", "tranylcypromine"]],
  ])("flag what raises pressure: %s", (_name, group, members) => {
    const flagged = ingredients.filter((row) => row.interferes === "yes").map((row) => row.ingredient ?? "")
    const inGroup = ingredients.filter((row) => list(row.atc).some((code) => group.test(code)))

    expect(members.filter((member) => !flagged.includes(member))).toEqual([])
    expect(inGroup.map((row) => row.ingredient).filter((name) => !flagged.includes(name ?? ""))).toEqual([])
  })

  it("flag every counted beta blocker and central agonist as not to be stopped at once", () => {
    const unflagged = ingredients.filter(
      (row) => /^(beta_blocker|central_agonist)$/.test(row.class ?? "") && row.withdrawal === "",
    )

    expect(unflagged.map((row) => row.ingredient)).toEqual([])
  })
})

describe("the ATC codes", () => {
  it("are named in the index as the lists read them", () => {
    const read = [...atcNames].filter(([code]) => contentByCode.has(code))
    const wrong = read.filter(
      ([code, name]) =>
        !(contentByCode.get(code) ?? []).every((ingredient) =>
          ingredient === "unspecified diuretic"
            ? /\b(diuretics|thiazides)\b/.test(name)
            : name.includes(ingredient),
        ),
    )

    expect(wrong).toEqual([])
    expect([...atcNames.keys()].filter((code) => !contentByCode.has(code))).toEqual([])
  })

  it("leave out no part of a combination that the index names", () => {
    const cut = [...atcNames].filter(([code, name]) => {
      const content = contentByCode.get(code) ?? []
      const parts = name
        .split(/, | and /)
        .filter((part) => part !== "potassium")
        .map((part) => (/thiazides|diuretics/.test(part) ? "a diuretic" : part))
      return content.length > 0 && content.length !== new Set(parts).size
    })

    expect(cut).toEqual([])
  })

  it("leave a combination open whose name does not settle the content", () => {
    const open = [...atcNames].filter(([, name]) =>
      /combinations|potassium-sparing agents|other combinations/.test(name),
    )

    expect(open.filter(([code]) => (contentByCode.get(code) ?? []).length > 0)).toEqual([])
    expect(open.length).toBeGreaterThan(20)
  })

  it("put every plain drug of a blood-pressure group into its class", () => {
    const wrong = ingredients.flatMap((row) =>
      list(row.atc).flatMap((code) => {
        const rule = classesByGroup.find(({ group }) => group.test(code))
        if (rule === undefined) return []
        const expected = rule.others.some((other) => other === row.ingredient) ? "" : rule.class
        return row.class === expected ? [] : [[row.ingredient, code, row.class]]
      }),
    )

    expect(wrong).toEqual([])
  })

  it("give no class to a drug outside those groups, forms for the eye, skin and rectum apart", () => {
    const strangers = ingredients.filter(
      (row) =>
        row.class !== "" &&
        list(row.atc).some(
          (code) =>
            !/^(S01|D11|C05AE|N02CX02)/.test(code) && !classesByGroup.some(({ group }) => group.test(code)),
        ),
    )

    expect(strangers.map((row) => row.ingredient)).toEqual([])
  })
})

test("the other reasons for a class name classes and kinds that the drugs have", () => {
  const known = new Set(ingredients.flatMap((row) => [`${row.class},`, `${row.class},${row.kind}`]))

  expect(reasons.map((row) => `${row.family},${row.kind}`).filter((one) => !known.has(one))).toEqual([])
  expect(reasons.length).toBeGreaterThan(0)
})

describe("the condition groups", () => {
  it("hold the ICD-10 codes of the definitions and those of falls, and no other", () => {
    const byCondition: Record<string, string[]> = {}
    for (const row of conditions.filter((one) => one.code_system === "icd10"))
      (byCondition[row.condition ?? ""] ??= []).push(row.code ?? "")

    expect(byCondition).toEqual({
      ckd: ["N18"],
      ckd_stage_5: ["N185"],
      dialysis: ["Z992", "N186"],
      transplant: ["Z940", "T861"],
      hypertension: ["I10", "I11", "I12", "I13", "I15"],
      diabetes: ["E08", "E09", "E10", "E11", "E12", "E13", "E14"],
      type_1_diabetes: ["E10"],
      heart_failure: ["I50", "I110", "I130", "I132", "I0981"],
      atrial_fibrillation: ["I48"],
      pregnancy: ["O0", "O1", "O2", "O3", "O4", "O5", "O6", "O7", "O8", "O9", "Z331", "Z34", "Z3A"],
      palliative: ["Z515"],
      // Of no measure: told beside low pressure. Falls, dizziness, syncope, hypotension (titles of ICD-10-CM, from memory).
      falls_or_dizziness: ["R42", "R55", "I95", "R296", "W0", "W1", "Z9181"],
    })
  })

  it("compare ICD-10 by prefix and SNOMED by the whole code, which has a valid check digit", () => {
    const snomed = conditions.filter((row) => row.code_system === "snomed")

    expect(conditions.filter((row) => (row.match === "prefix") !== (row.code_system === "icd10"))).toEqual([])
    expect(snomed.filter((row) => !hasVerhoeffCheckDigit(row.code ?? ""))).toEqual([])
    expect(snomed.length).toBeGreaterThan(10)
  })
})

// Verhoeff 1969, Error detecting decimal codes: the check digit of every SNOMED CT identifier.
const multiplication = [
  "0123456789", "1234067895", "2340178956", "3401289567", "4012395678",
  "5987604321", "6598710432", "7659821043", "8765932104", "9876543210",
] // prettier-ignore
const permutation = [
  "0123456789", "1576283094", "5803796142", "8916043527",
  "9453126870", "4286573901", "2793806415", "7046913258",
] // prettier-ignore

function hasVerhoeffCheckDigit(code: string): boolean {
  let check = 0
  for (const [at, digit] of [...code].reverse().entries()) {
    const permuted = Number(permutation[at % 8]?.[Number(digit)])
    check = Number(multiplication[check]?.[permuted])
  }
  return code !== "" && check === 0
}
