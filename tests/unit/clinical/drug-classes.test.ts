import { describe, expect, it } from "vitest"
import { z } from "zod"
import { allergySubstances } from "../../fixtures/allergy-substances"
import { openDrugs, type DrugOrder } from "../../helpers/open-drugs"

const Content = z.object({ patient_id: z.string(), class: z.string().nullable(), kind: z.string() })

/** Class and kind of every ingredient by patient, where each patient has one list of orders. */
async function contentOf(patients: DrugOrder[][]) {
  const orders = patients.flatMap((list, at) => list.map((order) => ({ ...order, patientId: String(at) })))
  const connection = await openDrugs({ orders })
  const reader = await connection.runAndReadAll(`
    select distinct o.patient_id, i.class, i.kind
    from order_ingredients as i join orders as o on o.order_key = i.order_key
    order by o.patient_id, i.class, i.kind
  `)
  return z.array(Content).parse(reader.getRowObjectsJson())
}

const drugs = (...names: string[]): DrugOrder[] => names.map((drug) => ({ drug }))

// Expected classes: AHA scientific statement on resistant hypertension 2018 (three pillars), the combination names of the
// WHO ATC/DDD index, and the class list of the project definitions.
const cases: { orders: DrugOrder[]; classes: string[] }[] = [
  {
    orders: drugs("amlodipine/valsartan/HCTZ"),
    classes: ["calcium_channel_blocker", "diuretic", "ras_blocker"],
  },
  { orders: drugs("furosemide", "chlorthalidone", "carvedilol"), classes: ["beta_blocker", "diuretic"] },
  {
    orders: drugs("lisinopril", "losartan", "amlodipine"),
    classes: ["calcium_channel_blocker", "ras_blocker"],
  },
  { orders: drugs("sacubitril/valsartan", "lisinopril"), classes: ["ras_blocker"] },
  { orders: drugs("sparsentan 400 mg"), classes: ["ras_blocker"] },
  { orders: drugs("spironolactone/HCTZ"), classes: ["diuretic", "mineralocorticoid_antagonist"] },
  { orders: drugs("triamterene/HCTZ"), classes: ["diuretic"] },
  { orders: drugs("atorvastatin/amlodipine"), classes: ["calcium_channel_blocker"] },
  { orders: drugs("timolol eye drops", "tamsulosin", "sildenafil"), classes: [] },
  { orders: drugs("finerenone", "dapagliflozin", "amlodipine"), classes: ["calcium_channel_blocker"] },
  {
    orders: [...drugs("amlodipine", "losartan"), { drug: "clonidine", asNeeded: true }],
    classes: ["calcium_channel_blocker", "ras_blocker"],
  },
  {
    orders: drugs("clonidine PRN", "amlodipine", "losartan"),
    classes: ["calcium_channel_blocker", "ras_blocker"],
  },
  { orders: drugs("sotalol", "nimodipine", "isosorbide dinitrate", "alfuzosin", "silodosin"), classes: [] },
  { orders: drugs("labetalol"), classes: ["beta_blocker"] },
  { orders: drugs("terazosin"), classes: ["alpha1_blocker"] },
  { orders: drugs("clonidine patch 0.1 mg/24h"), classes: ["central_agonist"] },
  { orders: drugs("minoxidil 5 mg tablet"), classes: ["vasodilator"] },
  { orders: drugs("minoxidil 5% topical solution"), classes: [] },
  { orders: drugs("hydralazine/isosorbide dinitrate"), classes: ["vasodilator"] },
  { orders: drugs("aprocitentan", "reserpine"), classes: ["other"] },
  { orders: drugs("bosentan", "riociguat", "tolvaptan"), classes: [] },
  {
    orders: [{ drug: "pill four in one", codeSystem: "atc", code: "C09BX06" }],
    classes: ["beta_blocker", "calcium_channel_blocker", "diuretic", "ras_blocker"],
  },
  {
    orders: [{ drug: "aliskiren combination", codeSystem: "atc", code: "C09XA54" }],
    classes: ["calcium_channel_blocker", "diuretic", "ras_blocker"],
  },
  {
    orders: [{ drug: "zzz", codeSystem: "atc", code: "C09BA03" }],
    classes: ["diuretic", "ras_blocker"],
  },
  { orders: [{ drug: "zzz", codeSystem: "atc", code: "G04CA55" }], classes: ["alpha1_blocker"] },
]

describe("the classes of a patient's orders", () => {
  it("are those of every counted ingredient, each once", async () => {
    const content = await contentOf(cases.map((one) => one.orders))

    const found = cases.map((one, at) => ({
      orders: one.orders,
      classes: [
        ...new Set(
          content.flatMap((row) => (row.patient_id === String(at) && row.class !== null ? [row.class] : [])),
        ),
      ].sort(),
    }))

    expect(found).toEqual(cases)
  })

  it("keep the finer kind beside the class", async () => {
    const content = await contentOf([
      drugs("lisinopril", "losartan", "aliskiren", "HCTZ", "chlorthalidone", "furosemide", "amiloride"),
    ])

    expect(content.map((row) => `${row.class} ${row.kind}`)).toEqual([
      "diuretic loop",
      "diuretic potassium_sparing",
      "diuretic thiazide",
      "diuretic thiazide_like",
      "ras_blocker ace_inhibitor",
      "ras_blocker arb",
      "ras_blocker direct_renin_inhibitor",
    ])
  })

  it("name the kind of a drug that is not counted, with no class", async () => {
    const content = await contentOf([drugs("finerenone", "empagliflozin", "ibuprofen")])

    expect(content.map((row) => [row.class, row.kind])).toEqual([
      [null, "nonsteroidal_mra"],
      [null, "nsaid"],
      [null, "sglt2_inhibitor"],
    ])
  })
})

describe("an allergy substance", () => {
  it("names its kind as a drug or as a group", async () => {
    const connection = await openDrugs({
      orders: [],
      substances: allergySubstances.map(([substance]) => substance),
    })
    const reader = await connection.runAndReadAll(
      "select substance, string_agg(kind, ' ' order by kind) from allergy_kinds group by substance order by substance",
    )

    expect(reader.getRowsJson()).toEqual(allergySubstances.filter(([, kinds]) => kinds !== null))
  })
})
