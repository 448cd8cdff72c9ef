import { mkdirSync, writeFileSync } from "node:fs"
import path from "node:path"
import { text } from "node:stream/consumers"
import { afterAll, describe, expect, test } from "vitest"
import { AppError } from "../../../lib/errors"
import { openSource } from "../../../lib/import/source"
import { openFolder, writeExtract } from "../../helpers/extract"
import { forge, zipOf } from "../../helpers/zip"

const folder = openFolder()
afterAll(folder.close)

const staff = "staff_id,name,role\nS1,Dr A,nurse\n"
const visits = "visit_id,patient_id,started_on,kind\n"

function written(name: string, content: Buffer): string {
  const file = path.join(folder.dir, name)
  writeFileSync(file, content)
  return file
}

/** Kinds and contents of the files, read twice as the import does. */
async function contents(location: string): Promise<Record<string, string>> {
  const source = await openSource(location)
  try {
    const all: Record<string, string> = {}
    for (const file of source.files) {
      await text(await file.open())
      all[file.kind] = await text(await file.open())
      expect(Buffer.byteLength(all[file.kind] ?? "")).toBe(file.size)
    }
    return all
  } finally {
    await source.close()
  }
}

/** What a person is told when the location is no extract. */
async function refusal(location: string): Promise<string> {
  try {
    await contents(location)
  } catch (error) {
    if (error instanceof AppError && error.code === "import-refused") return error.personMessage
    throw error
  }
  return "taken"
}

describe("an extract is a folder or a zip file of it", () => {
  test("a folder, with names in any case; other files are named and left out", async () => {
    const location = writeExtract(folder.dir, {
      "Staff.CSV": staff,
      "visits.csv": visits,
      "notes.txt": "x",
      ".hidden": "x",
    })
    const source = await openSource(location)

    expect(source.files.map((file) => file.kind)).toEqual(["staff", "visits"])
    expect(source.ignored).toEqual(["notes.txt"])
    expect(await contents(location)).toEqual({ staff, visits })
  })

  test.each([
    ["with its files at the top", { "staff.csv": staff, "visits.csv": visits }],
    [
      "with its files in one folder",
      { "extract/staff.csv": staff, "extract/visits.csv": visits, "__MACOSX/x": "" },
    ],
  ])("a zip file %s", async (name, entries) => {
    expect(await contents(written(`${name}.zip`, await zipOf(entries)))).toEqual({ staff, visits })
  })

  test("a zip file without compression", async () => {
    expect(
      await contents(written("stored.zip", await zipOf({ "staff.csv": staff }, { compress: false }))),
    ).toEqual({ staff })
  })

  test("an extract compressed ninetyfold, as a very regular table may be", async () => {
    const rows = Array.from({ length: 1_000_000 }, (_, index) => `S${Math.floor(index / 20)},Dr A,nurse\n`)
    const regular = `staff_id,name,role\n${rows.join("")}`
    const zip = await zipOf({ "staff.csv": regular })
    expect(regular.length / zip.length).toBeGreaterThan(90)

    expect((await contents(written("regular.zip", zip))).staff?.length).toBe(regular.length)
  })
})

describe("what is no extract is refused, in words", () => {
  test("a place where nothing is", async () => {
    expect(await refusal(path.join(folder.dir, "nowhere"))).toBe(
      "There is no such folder or file. Nothing was imported.",
    )
  })

  test.each([
    ["an empty folder", {}],
    ["a folder with none of the files", { "lab.csv": "x", "Readings.xlsx": "x" }],
  ])("%s, naming all ten files", async (_, files) => {
    const message = await refusal(writeExtract(folder.dir, files))

    expect(message).toContain("None of the files of an extract is there")
    expect(message).toContain(
      "staff.csv, patients.csv, visits.csv, appointments.csv, readings.csv, labs.csv, medications.csv, problems.csv, allergies.csv, diet.csv",
    )
  })

  test("a file twice, in two spellings", async () => {
    expect(await refusal(writeExtract(folder.dir, { "staff.csv": staff, "STAFF.csv": staff }))).toContain(
      "staff.csv is there 2 times",
    )
  })

  test("a folder in the place of a file", async () => {
    const location = writeExtract(folder.dir, { "visits.csv": visits })
    mkdirSync(path.join(location, "staff.csv"))

    expect(await refusal(location)).toContain("staff.csv is not a file")
  })

  test("a file that is no zip file", async () => {
    expect(await refusal(written("readings.csv", Buffer.from(staff)))).toContain(
      "neither a folder nor a zip file",
    )
    expect(await refusal(written("empty.zip", Buffer.alloc(0)))).toContain("neither a folder nor a zip file")
  })

  test("a zip file cut short", async () => {
    const zip = await zipOf({ "staff.csv": staff })
    expect(await refusal(written("short.zip", zip.subarray(0, zip.length - 30)))).toContain(
      "neither a folder nor a zip",
    )
  })

  test("files in two folders of a zip file", async () => {
    expect(
      await refusal(written("two.zip", await zipOf({ "a/staff.csv": staff, "b/visits.csv": visits }))),
    ).toContain("more than one folder")
  })

  test("the same file twice in a zip file", async () => {
    const zip = await zipOf({ "staff.csv": staff, "stafF.csv": staff })
    expect(await refusal(written("same.zip", zip))).toContain("staff.csv is there 2 times")
    expect(await refusal(written("equal.zip", forge(zip, "stafF.csv", "staff.csv")))).toContain(
      "two files of the same name",
    )
  })
})

describe("a zip file made to do harm is refused", () => {
  test.each([
    ["climbs out", "xx/staff.csv", "../staff.csv"],
    ["climbs out with backslashes", "xx/staff.csv", "..\\staff.csv"],
    ["starts at the root", "x/staff.csv", "//staff.csv"],
    ["names a drive", "xx/staff.csv", "C:/staff.csv"],
  ])("whose path %s", async (name, from, to) => {
    const zip = forge(await zipOf({ [from]: staff, "visits.csv": visits }), from, to)

    expect(await refusal(written(`${name}.zip`, zip))).toContain("paths that lead out of its own folder")
  })

  test("that unpacks to a thousand times its size", async () => {
    const zip = await zipOf({ "readings.csv": Buffer.alloc(50_000_000, "1") })
    expect(zip.length).toBeLessThan(100_000)

    expect(await refusal(written("bomb.zip", zip))).toContain("impossible size")
  })

  test("that says it is smaller than it is", async () => {
    const zip = await zipOf({ "staff.csv": Buffer.alloc(1_000_000, "1") })
    // The size before compression stands in the central directory, 24 bytes in.
    const central = zip.indexOf("PK\u0001\u0002")
    zip.writeUInt32LE(1000, central + 24)

    expect(await refusal(written("liar.zip", zip))).toContain("damaged")
  })

  test("that holds a link to another file", async () => {
    const zip = await zipOf({ "staff.csv": "/etc/passwd" }, { compress: false, mode: 0o120777 })

    expect(await refusal(written("link.zip", zip))).toContain("a link to another file")
  })

  test("that is damaged where a table would still be read", async () => {
    const zip = await zipOf({ "staff.csv": staff }, { compress: false })

    expect(await refusal(written("flipped.zip", forge(zip, "Dr A", "Dr B")))).toContain("damaged")
  })

  test("that is protected by a password", async () => {
    const zip = await zipOf({ "staff.csv": staff })
    const central = zip.indexOf("PK\u0001\u0002")
    zip.writeUInt16LE(zip.readUInt16LE(central + 8) | 1, central + 8)

    expect(await refusal(written("locked.zip", zip))).toContain("protected by a password")
  })

  test("with thousands of files", async () => {
    const names = Array.from({ length: 1001 }, (_, index) => [`x${index}.csv`, ""] as const)
    expect(await refusal(written("many.zip", await zipOf(Object.fromEntries(names))))).toContain(
      "more than 1000 files",
    )
  })
})
