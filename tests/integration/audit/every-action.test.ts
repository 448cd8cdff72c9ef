import { afterAll, beforeAll, describe, expect, test, vi } from "vitest"
import { newToken } from "../../../lib/access/tokens"
import { permissions } from "../../../lib/access/permissions"
import { wholeClinic } from "../../../lib/access/scope"
import type { Role } from "../../../lib/access/roles"
import { hashPassword } from "../../../lib/auth/password-hash"
import { snapshotMeta } from "../../../lib/engine/snapshot-meta"
import { ensurePersonas } from "../../../lib/store/demo-personas"
import { listHeldFacts } from "../../../lib/store/held-facts"
import { makeLink } from "../../../lib/store/one-time-links"
import { listSessions } from "../../../lib/store/own-sessions"
import { actionFields } from "../../fixtures/action-fields"
import { actions, type Needs } from "../../fixtures/authorisation"
import { actionTraces } from "../../fixtures/traces"
import { importExtract } from "../../helpers/extract"
import { prepareCase } from "../../helpers/prepare-case"
import { giveFactor, openSiteInProcess, type SiteInProcess } from "../../helpers/site-in-process"

vi.mock("next/headers", async () => (await import("../../helpers/next-stand-ins")).nextHeaders)
vi.mock("next/cache", async () => (await import("../../helpers/next-stand-ins")).nextCache)
vi.mock("node:child_process", async (original) =>
  (await import("../../helpers/next-stand-ins")).withoutProcesses(original<object>),
)

const password = "gnu kelp dwarf lantern oboe"

let site: SiteInProcess

beforeAll(async () => {
  site = await openSiteInProcess()
})

afterAll(() => site.close())

test("every action says what the log has of it", () => {
  expect(Object.keys(actionTraces).sort()).toEqual(Object.keys(actions).sort())
})

describe.each(Object.entries(actions))("the action %s", (name, { needs }) => {
  const trace = actionTraces[name]

  test.skipIf(typeof trace !== "string")("is in the log once it is done", async () => {
    const signedIn = await site.signIn(roleFor(needs), needs === "half signed in" ? "factor" : "full")
    const given = await prepare(name, signedIn.userId)
    const fields = {
      ...actionFields({
        ...{ sessionId: "", userId: signedIn.userId, emergencyId: "", linkToken: "" },
        sealedSeed: signedIn.sealedSeed,
      })[name],
      ...given,
    }
    const form = new FormData()
    for (const [field, [value = ""] = []] of Object.entries(fields)) form.append(field, value)
    const before = (await site.store.prisma.auditEntry.aggregate({ _max: { seq: true } }))._max.seq ?? 0n

    await run(name, form)

    const entries = await site.store.prisma.auditEntry.findMany({ where: { seq: { gt: before } } })
    expect(entries.map((entry) => entry.action)).toContain(trace)
  })
})

type Fields = Record<string, readonly string[]>

/** Brings the clinic to where the action has something to do; answers what its form has to name for that. */
async function prepare(name: string, userId: string): Promise<Fields> {
  const { prisma } = site.store
  const [, action = ""] = name.split(/ (?=\w+$)/)
  const other = () =>
    prisma.user.create({ data: { userName: newToken().slice(0, 20), name: "Some Body", roles: ["nurse"] } })
  if (action === "changePassword" || action === "giveProof")
    await prisma.user.update({ where: { id: userId }, data: { passwordHash: await hashPassword(password) } })
  if (action === "giveProof") return { proof: [password] }
  if (action === "endOne") {
    const [session] = await listSessions(prisma, { userId, now: new Date() })
    return { session: [session?.id ?? ""] }
  }
  if (action === "rename" || action === "remove") {
    const id = newToken()
    await prisma.passkey.create({
      data: { id, userId, publicKey: new Uint8Array(8), counter: 0, name: "Phone" },
    })
    return { passkey: [id] }
  }
  if (action === "giveCode") await giveFactor(site, userId)
  if (action === "signOff" || action === "endOwnEmergency") {
    const opener = action === "signOff" ? (await other()).id : userId
    const times = { startsAt: new Date(), endsAt: new Date(Date.now() + 60_000) }
    const { id } = await prisma.emergencyAccess.create({
      data: { userId: opener, reason: "Collapsed", ...times },
    })
    return { id: [String(id)] }
  }
  if (action === "accept" || action === "decline") {
    const asking = { source: "x.zip", status: "asks", uploadPath: "x.zip", asOf: new Date() }
    return { id: [String((await prisma.import.create({ data: asking })).id)] }
  }
  if (action === "discardHeld") {
    const visits = ["visit_id,patient_id,started_on,kind", "V-1,nobody,2025-01-10,office"]
    await importExtract(site.store, site.dataDir, { visits })
    const held = await listHeldFacts(prisma, { scope: wholeClinic, take: 1, skip: 0 })
    const [fact] = held?.facts ?? []
    return { kind: [fact?.kind ?? ""], importId: [String(fact?.importId)], line: [String(fact?.line)] }
  }
  if (action === "askForErasure" || action === "withdrawErasure") {
    const skip = action === "askForErasure" ? 0 : 1
    const isKnown = { records: { some: { endedAt: null } } }
    const { publicId } = await prisma.patient.findFirstOrThrow({
      where: isKnown,
      orderBy: { patientId: "asc" },
      skip,
    })
    const said = { reason: "Asked for in writing", basis: "Local law", askedBy: "Lead", askedAt: new Date() }
    if (action === "withdrawErasure") await prisma.erasure.create({ data: { publicId, ...said } })
    return { publicId: [publicId] }
  }
  if (action === "undoNote") {
    const note = { measureId: null, onDay: new Date(), text: "A note", madeBy: "Lead", madeAt: new Date() }
    return { id: [String((await prisma.chartNote.create({ data: note })).id)] }
  }
  if (action === "endOneOfLog" || action === "openOneOfLog") {
    const written = { measureId: "acr-tested", month: "2026-10", kind: "action", text: "Order the urine" }
    const made = { owner: "Some Body", ownerId: userId, madeBy: "Lead", madeAt: new Date() }
    const closed = action === "openOneOfLog" ? { state: "done", closedAt: new Date() } : {}
    const { id } = await prisma.measureAction.create({ data: { ...written, ...made, ...closed } })
    return { id: [String(id)], version: ["1"] }
  }
  if (action === "writeDown") {
    const { runningAsOf } = await snapshotMeta(wholeClinic)
    return { month: [runningAsOf.slice(0, 7)] }
  }
  if (action === "setOwnBaseline") {
    const { asOfs } = await snapshotMeta(wholeClinic)
    return { from: [asOfs[0]?.slice(0, 7) ?? ""] }
  }
  if (action === "undoOwnBaseline") {
    const chosen = { fromMonth: "2024-01", reason: "A new cuff", madeBy: "Lead", madeAt: new Date() }
    const { id } = await prisma.chartBaseline.create({ data: { measureId: "acr-tested", ...chosen } })
    return { id: [String(id)] }
  }
  if (action === "mapDrugText") return { meaning: ["ignored"] }
  if (action === "unmapDrugText")
    await prisma.drugNameMapping.upsert({
      where: { text: "Zylodex 10" },
      create: { text: "Zylodex 10", ingredients: [], isIgnored: true },
      update: {},
    })
  if (action === "saveProposal") return { "bp.systolicTarget": ["125"] }
  if (["change", "disable", "makeReset", "takeFactor"].includes(action)) {
    const { id, version } = await other()
    await giveFactor(site, id)
    if (action === "takeFactor")
      await prisma.user.update({ where: { id }, data: { issuer: "https://provider.test", subject: id } })
    return { id: [id], version: [String(version)] }
  }
  if (action === "enterAsPersona") {
    await prisma.clinic.update({ where: { id: 1 }, data: { isDemo: true } })
    await prisma.import.updateMany({ data: { isDemo: true } })
    await ensurePersonas(prisma)
    const persona = await prisma.user.findFirstOrThrow({ where: { isDemo: true } })
    return { persona: [persona.id] }
  }
  if (action === "usePasswordLink")
    return { token: [await makeLink(prisma, { purpose: "setup", userId: null, now: new Date() })] }
  if (action === "recordSent") {
    const { id, version } = await prepareCase(prisma, action)
    return { letter: [`${id[0]}.${version[0]}`] }
  }
  if (name.includes("/decisions/decision-actions.ts")) {
    const { patientId, publicId } = await prisma.patient.findFirstOrThrow({ orderBy: { patientId: "asc" } })
    if (action === "decide") return { publicId: [publicId], shown: [""] }
    const said = { patientId, topic: "diet", kind: "patient declined", reason: "cost" }
    const made = { madeOn: new Date(), madeAt: new Date(), madeBy: "Lead", madeById: userId }
    const { id } = await prisma.clinicianDecision.create({ data: { ...said, ...made } })
    return { publicId: [publicId], id: [String(id)] }
  }
  if (name.includes("/enter/enter-actions.ts")) {
    const isKnown = { records: { some: { endedAt: null } } }
    const { publicId } = await prisma.patient.findFirstOrThrow({ where: isKnown })
    if (action === "enterLog")
      return { publicId: [publicId], until: ["2025-09-10"], "time.0": ["07:00"], lines: [""] }
    const diet = { publicId: [publicId], recorded_on: ["2025-09-11"], method: ["food_record"] }
    if (action === "enterDiet") return diet
    const form = new FormData()
    for (const [field, [value = ""]] of Object.entries({ ...diet, recorded_on: ["2025-09-12"] }))
      form.append(field, value)
    form.append("sodium_mg", "2400")
    await run(name.replace(/withdraw$/, "enterDiet"), form)
    const { id } = await prisma.import.findFirstOrThrow({
      where: { enteredBy: { not: null } },
      orderBy: { id: "desc" },
    })
    return { publicId: [publicId], importId: [String(id)] }
  }
  if (name.includes("/outreach/case-actions.ts") && action !== "takeNextCase") {
    const given = await prepareCase(prisma, action)
    if (action !== "takeBack") return given
    const taken = new FormData()
    for (const [field, [value = ""]] of Object.entries(given)) taken.append(field, value)
    await run(name.replace(/takeBack$/, "takeCase"), taken)
    return { ...given, version: [String(Number(given.version[0]) + 1)] }
  }
  if (action === "signOut") await site.signIn("nurse")
  return {}
}

/** An action leads on by throwing; any other failure is told. */
async function run(name: string, form: FormData): Promise<void> {
  const [file = "", exported = ""] = name.split(/ (?=\w+$)/)
  const place = new URL(`../../../${file}`, import.meta.url).href
  const module: Record<string, unknown> = await import(/* @vite-ignore */ place)
  const action = module[exported]
  if (typeof action !== "function") throw new Error(`there is no action ${name}`)
  try {
    await (action.length > 1 ? action({ problem: null }, form) : action(form))
  } catch (error) {
    if (error instanceof Error && "digest" in error && String(error.digest).startsWith("NEXT_REDIRECT"))
      return
    throw error
  }
}

function roleFor(needs: Needs): Role | "nobody" {
  if (needs === "anyone") return "nobody"
  if (needs === "half signed in" || needs === "signed in" || needs === "console") return "nurse"
  const [role] = permissions[needs].roles
  return role
}
