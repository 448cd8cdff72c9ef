import { beforeAll, describe, expect, it } from "vitest"
import { drugMappings, drugOrderCases } from "../../fixtures/drug-orders"
import { drugOrderMisses, drugOrderRows } from "../../helpers/drug-order-rows"
import { openDrugs } from "../../helpers/open-drugs"

let rows: Awaited<ReturnType<typeof drugOrderRows>>

beforeAll(async () => {
  const orders = drugOrderCases.map(({ order }) => order)
  rows = await drugOrderRows(await openDrugs({ orders, mappings: drugMappings }))
})

describe("an order of a drug", () => {
  it.each(drugOrderCases.map((one, place) => ({ ...one, place })))("$says", ({ place, ...expected }) => {
    expect(drugOrderMisses(expected, rows.get(place))).toEqual({})
  })

  it("is left out by no view", () => {
    expect(rows.size).toBe(drugOrderCases.length)
  })
})
