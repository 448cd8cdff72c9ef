import { readdirSync } from "node:fs"
import { afterAll, beforeAll, expect, test } from "vitest"
import { z } from "zod"
import { wholeClinic } from "../../../lib/access/scope"
import { carryOutErasure } from "../../../lib/cli/carry-out-erasure"
import type { ClosedFigures } from "../../../lib/domain/closed-figures"
import { closedDir } from "../../../lib/engine/closed-file"
import { askWithin } from "../../../lib/engine/scoped"
import { snapshotMeta } from "../../../lib/engine/snapshot-meta"
import { keptRateWords } from "../../../lib/figures/kept-rate-words"
import { measureFigure } from "../../../lib/figures/measure-figure"
import { bpAtTarget } from "../../../lib/measures/bp-at-target"
import { measureMonths } from "../../../lib/questions/measure-months"
import { movedSinceClosing } from "../../../lib/questions/moved-since-closing"
import { wordedMeasure } from "../../../lib/measures/worded-measures"
import { standingChanges } from "../../../lib/questions/standing-changes"
import { standingPeople } from "../../../lib/questions/standing-people"
import { commandActor } from "../../../lib/store/audit-actors"
import { requestErasure } from "../../../lib/store/erasures"
import { closedDay, openClosingClinic, type ClosingClinic } from "../../helpers/closing-clinic"

// P1 (118/70, and one of the two who wrote down what they ate) is erased after January was closed.

let clinic: ClosingClinic
let whenClosed: ClosedFigures

beforeAll(async () => {
  clinic = await openClosingClinic()
  whenClosed = await clinic.figures()
  if ((await clinic.closeJanuary()) !== "closed") throw new Error("January was not closed")
  await clinic.rebuild()
  const { prisma, url } = clinic.store
  const { publicId } = await prisma.patient.findUniqueOrThrow({ where: { patientId: "P1" } })
  const said = { reason: "the person asks for it", basis: "court order 4" }
  const asked = await requestErasure(prisma, {
    ...{ publicId, words: [], said, by: commandActor(), now: new Date() },
  })
  if (asked.status !== "asked") throw new Error("the erasure was not asked for")
  await carryOutErasure({
    ...{ client: prisma, databaseUrl: url, asked: { id: asked.id, confirm: "P1" } },
    environment: {
      ...{ databaseUrl: url, dataDir: clinic.dataDir, isDemoWanted: false },
      ...{ origin: undefined, timeZone: "UTC", port: 3000 },
    },
  })
}, 300_000)

afterAll(() => clinic.close())

const closedFiles = () => readdirSync(closedDir(clinic.dataDir))

test("the figures of a closed month stay those kept when it was closed", async () => {
  expect(whenClosed.diet).toMatchObject([{ series: "counted days", n: 2, mean_mg: 2500.5 }])
  expect(await clinic.figures()).toEqual(whenClosed)
})

test("the closing says that its figures do not come out again", async () => {
  expect((await snapshotMeta(wholeClinic)).closed).toMatchObject([
    { asOf: closedDay, isReproduced: false, isOfTheseDefinitions: true },
  ])
})

test("the month is computed anew without the person, whom no list holds", async () => {
  const of = (standing: string) =>
    askWithin(wholeClinic, standingPeople(bpAtTarget), { as_of: closedDay, standing })
  const values = await askWithin(wholeClinic, {
    sql: "select v.patient_id from patient_values as v union select s.patient_id from patient_standings as s order by 1",
    Row: z.object({ patient_id: z.string() }),
  })

  expect((await of("met")).map((one) => one.patient_id)).toEqual(["P2"])
  expect((await of("not met")).map((one) => one.patient_id)).toEqual(["P3", "P4"])
  expect(values.map((one) => one.patient_id)).toEqual(["P2", "P3", "P4", "P5", "P6"])
  expect(closedFiles()).toHaveLength(1)
})

test("nobody left stands elsewhere for it", async () => {
  expect(
    await askWithin(wholeClinic, movedSinceClosing(bpAtTarget), { as_of: closedDay, limit: 10 }),
  ).toEqual([])
})

test("a change of the closed month says that its parts are of other people than its rate", async () => {
  const { asOfs, settings } = await snapshotMeta(wholeClinic)
  const rows = await askWithin(wholeClinic, measureMonths)
  const figureOn = async (asOf: string, earlierAsOf: string) =>
    measureFigure({
      ...{ measure: wordedMeasure(bpAtTarget, settings), rows, asOfs, asOf, earlierAsOf },
      moves: await askWithin(wholeClinic, standingChanges, { as_of: asOf, earlier_as_of: earlierAsOf }),
    })
  const january = await figureOn(closedDay, "2025-12-31")

  expect([january.rate.met, january.change?.counts.laterMet]).toEqual([2, 1])
  expect(keptRateWords(january)).toBe(
    "The January 2026 rate is as kept at the closing, the people are as computed now: the parts need not sum to the change.",
  )
  expect(keptRateWords(await figureOn("2025-12-31", "2025-11-30"))).toBeNull()
})
