import { readdirSync, readFileSync } from "node:fs"
import path from "node:path"
import { fileURLToPath } from "node:url"

const folder = fileURLToPath(new URL("../fixtures/files/twelve", import.meta.url))

/** The year of the October that was worked out on paper. */
const writtenYear = 2026

/**
 * The extract of the twelve people written by hand, moved on by whole years so that the October of their README is the
 * latest one that is over, and within the months that screens show, whenever the tests run.
 */
export function twelvePeople(now = new Date()): { files: Record<string, string>; year: number } {
  const year = now.getUTCMonth() >= 10 ? now.getUTCFullYear() : now.getUTCFullYear() - 1
  const moved = (text: string) =>
    text.replaceAll(
      /\b(\d{4})(-\d{2}-\d{2})/g,
      (_day, its: string, rest: string) => `${Number(its) + year - writtenYear}${rest}`,
    )
  const names = readdirSync(folder).filter((name) => name.endsWith(".csv"))
  const files = names.map((name) => [name, moved(readFileSync(path.join(folder, name), "utf8"))])
  return { files: Object.fromEntries(files), year }
}

/** The table under a heading of their README: one record a row, by column. */
export function tableOfTwelve(heading: string): Record<string, string>[] {
  const readme = readFileSync(path.join(folder, "README.md"), "utf8")
  const section = readme.split(/^## /m).find((part) => part.startsWith(`${heading}\n`)) ?? ""
  const [head = [], , ...rows] =
    section
      .split("\n\n")
      .map((block) => block.split("\n"))
      .find(([line]) => line?.startsWith("| id |"))
      ?.map((line) =>
        line
          .split("|")
          .slice(1, -1)
          .map((cell) => cell.trim()),
      ) ?? []
  return rows.map((cells) => Object.fromEntries(head.map((name, place) => [name, cells[place] ?? ""])))
}
