import { describe, expect, it } from "vitest"
import { z } from "zod"
import { openDrugs, type DrugMapping, type DrugOrder } from "../../helpers/open-drugs"

const Text = z.object({
  text: z.string(),
  normalised: z.string(),
  ingredients: z.array(z.string()),
  disagrees: z.boolean(),
  status: z.string(),
  orders: z.number(),
  patients: z.number(),
})

const Order = z.object({
  drug: z.string(),
  is_counted: z.boolean(),
  not_counted_reason: z.string().nullable(),
  is_route_unknown: z.boolean(),
})

async function readTexts(orders: DrugOrder[], mappings: DrugMapping[] = []) {
  const connection = await openDrugs({ orders, mappings })
  const reader = await connection.runAndReadAll(
    "select text, normalised, ingredients, disagrees, status, orders, patients from drug_texts order by text, code",
  )
  return z.array(Text).parse(reader.getRowObjectsJson())
}

async function readOrders(orders: DrugOrder[]) {
  const connection = await openDrugs({ orders })
  const reader = await connection.runAndReadAll(
    "select drug, is_counted, not_counted_reason, is_route_unknown from orders order by cast(order_key as integer)",
  )
  return z.array(Order).parse(reader.getRowObjectsJson())
}

describe("a code beside the text", () => {
  it("agrees when both name the same ingredients", async () => {
    const rows = await readTexts([
      { drug: "Lisinopril 10 mg", codeSystem: "atc", code: "C09AA03" },
      { drug: "Losartan potassium", codeSystem: "rxnorm", code: "52175" },
      { drug: "valsartan/sacubitril", codeSystem: "atc", code: " c09dx04 " },
      { drug: "ARNI 24/26", codeSystem: "rxnorm", code: "1656339" },
    ])

    expect(rows.map((row) => row.status)).toEqual(["mapped", "mapped", "mapped", "mapped"])
  })

  it("names what the text does not", async () => {
    const [row] = await readTexts([{ drug: "own brand tablets 5", codeSystem: "atc", code: "C09BB03" }])

    expect(row).toMatchObject({ ingredients: ["amlodipine", "lisinopril"], status: "mapped" })
  })

  it("counts with the text and lists the order when the two differ", async () => {
    const [row] = await readTexts([{ drug: "Lisinopril 10 mg", codeSystem: "atc", code: "C08CA01" }])

    expect(row).toMatchObject({
      ingredients: ["amlodipine", "lisinopril"],
      disagrees: true,
      status: "disagrees",
    })
  })

  it("is ignored when it does not settle the content", async () => {
    const [row] = await readTexts([
      { drug: "triamterene/hydrochlorothiazide", codeSystem: "atc", code: "C03EA01" },
    ])

    expect(row).toMatchObject({ ingredients: ["hydrochlorothiazide", "triamterene"], status: "mapped" })
  })

  it("is ignored when no list holds it, in whatever system", async () => {
    const rows = await readTexts([
      { drug: "lisinopril", codeSystem: "atc", code: "C09AA" },
      { drug: "lisinopril", codeSystem: "rxnorm", code: "314076" },
      { drug: "lisinopril", codeSystem: "snomed", code: "318851002" },
      { drug: "lisinopril", codeSystem: "ndc", code: "00000-0000" },
      { drug: "lisinopril", code: "C08CA01" },
    ])

    expect(rows.map((row) => [row.ingredients, row.status])).toEqual(
      rows.map(() => [["lisinopril"], "mapped"]),
    )
  })

  it("leaves the diuretic of a combination to the text, and counts one when the text names none", async () => {
    const rows = await readTexts([
      { drug: "lisinopril/HCTZ 20/12.5", codeSystem: "atc", code: "C09BA03" },
      { drug: "our lisinopril combination", codeSystem: "atc", code: "C09BA03" },
    ])

    expect(rows.map((row) => [row.text, row.ingredients, row.status])).toEqual([
      ["lisinopril/HCTZ 20/12.5", ["hydrochlorothiazide", "lisinopril"], "mapped"],
      ["our lisinopril combination", ["lisinopril", "unspecified diuretic"], "disagrees"],
    ])
  })

  it("settles a word that the text leaves unknown", async () => {
    const rows = await readTexts([
      { drug: "lisinopril housemark", codeSystem: "atc", code: "C09AA03" },
      { drug: "lisinopril housemark" },
    ])

    expect(rows.map((row) => row.status).sort()).toEqual(["mapped", "part not recognised"])
  })
})

describe("what a person mapped", () => {
  const mappings = [
    { text: "housemark", ingredients: ["lisinopril", "amlodipine"], isIgnored: false },
    { text: "herbal tea", ingredients: [], isIgnored: true },
  ]

  it("applies to every strength, salt and form of the text", async () => {
    const rows = await readTexts(
      [{ drug: "Housemark 5 mg tablets" }, { drug: "HOUSEMARK maleate 10MG po daily" }],
      mappings,
    )

    expect(rows.map((row) => [row.normalised, row.ingredients, row.status])).toEqual([
      ["housemark", ["amlodipine", "lisinopril"], "mapped"],
      ["housemark", ["amlodipine", "lisinopril"], "mapped"],
    ])
  })

  it("sets an ignored text aside without listing it again", async () => {
    const [row] = await readTexts([{ drug: "Herbal tea 2 x daily" }], mappings)

    expect(row).toMatchObject({ ingredients: [], status: "not a counted drug" })
  })

  it("still shows a code that says otherwise", async () => {
    const [row] = await readTexts([{ drug: "housemark", codeSystem: "atc", code: "C07AB07" }], mappings)

    expect(row).toMatchObject({
      ingredients: ["amlodipine", "bisoprolol", "lisinopril"],
      status: "disagrees",
    })
  })
})

describe("how many a text touches", () => {
  it("counts orders and patients per text and code", async () => {
    const rows = await readTexts([
      { drug: "lisinopril", patientId: "a" },
      { drug: "lisinopril", patientId: "a" },
      { drug: "lisinopril", patientId: "b" },
      { drug: "Lisinopril", patientId: "c" },
    ])

    expect(rows.map((row) => [row.text, row.orders, row.patients])).toEqual([
      ["Lisinopril", 1, 1],
      ["lisinopril", 3, 2],
    ])
  })
})

describe("an order", () => {
  it("never counts when it is taken as needed", async () => {
    const marked = await readOrders([
      { drug: "clonidine 0.1 mg", asNeeded: true },
      { drug: "clonidine 0.1 mg PRN" },
      { drug: "clonidine when required" },
      { drug: "clonidine 0.1 mg prn", asNeeded: false },
    ])

    expect(marked.map((order) => order.not_counted_reason)).toEqual([
      "as needed",
      "as needed",
      "as needed",
      null,
    ])
  })

  it("never counts by a route that does not reach the circulation by mouth", async () => {
    const routes = [
      "ophthalmic",
      "eye",
      "otic",
      "ear",
      "topical",
      "cutaneous",
      "inhaled",
      "nasal",
      "rectal",
      "vaginal",
      "intravenous",
      "Ophthalmic route",
      "IV",
      "Left eye",
      "Per rectum",
      "PR",
      "INH",
      "both eyes",
      "TOPICAL (skin)",
    ]

    const orders = await readOrders(routes.map((route) => ({ drug: "timolol", route })))

    expect(orders.map((order) => order.not_counted_reason)).toEqual(routes.map(() => "route"))
  })

  it("counts by mouth, through the skin by patch, under the tongue and by injection under it", async () => {
    const routes = [
      "oral",
      "PO",
      "By mouth",
      "p.o.",
      "transdermal",
      "Patch",
      "sublingual",
      "per os",
      "subcutaneous",
    ]

    const orders = await readOrders(routes.map((route) => ({ drug: "clonidine", route })))

    expect(orders.filter((order) => !order.is_counted || order.is_route_unknown)).toEqual([])
    expect(orders.length).toBe(routes.length)
  })

  it("counts by an unknown route, which is marked", async () => {
    const orders = await readOrders([
      { drug: "clonidine", route: "elsewhere" },
      { drug: "clonidine", route: "as directed" },
      { drug: "clonidine" },
    ])

    expect(orders.map((order) => [order.is_counted, order.is_route_unknown])).toEqual([
      [true, true],
      [true, true],
      [true, false],
    ])
  })

  it("never counts when its ATC group says it does not", async () => {
    const orders = await readOrders([
      { drug: "timolol", codeSystem: "atc", code: "S01ED01" },
      { drug: "minoxidil", codeSystem: "atc", code: "D11AX01" },
      { drug: "phenylephrine", codeSystem: "atc", code: "R01BA03" },
      { drug: "salbutamol", codeSystem: "atc", code: "r03ac02" },
      { drug: "diclofenac", codeSystem: "atc", code: "M02AA15" },
    ])

    expect(orders.map((order) => order.not_counted_reason)).toEqual(orders.map(() => "ATC group"))
  })

  it("counts in a neighbour of those ATC groups, and when the code is of another system", async () => {
    const orders = await readOrders([
      { drug: "theophylline", codeSystem: "atc", code: "R06AX13" },
      { drug: "ibuprofen", codeSystem: "atc", code: "M01AE01" },
      { drug: "timolol", codeSystem: "rxnorm", code: "D1" },
    ])

    expect(orders.map((order) => order.is_counted)).toEqual([true, true, true])
  })

  it("never counts when its text names such a route or form", async () => {
    const words = [
      "eye",
      "ophthalmic",
      "ear",
      "drops",
      "topical",
      "cream",
      "ointment",
      "gel",
      "lotion",
      "foam",
      "shampoo",
      "inhaler",
      "nasal",
      "spray",
      "suppository",
      "eye drops",
      "Creams",
      "IV",
      "EYEDROPS",
    ]

    const orders = await readOrders(words.map((word) => ({ drug: `betaxolol 0.5% ${word}` })))

    expect(orders.map((order) => order.not_counted_reason)).toEqual(words.map(() => "text"))
  })

  it("counts when the text says nothing of the kind", async () => {
    const orders = await readOrders([
      { drug: "betaxolol 20 mg tablet, gelatine coat" },
      { drug: "clonidine patch" },
    ])

    expect(orders.map((order) => order.is_counted)).toEqual([true, true])
  })
})
