import { readdirSync, readFileSync } from "node:fs"
import path from "node:path"
import { fileURLToPath } from "node:url"

const root = fileURLToPath(new URL("../..", import.meta.url))

/** The addresses of all screens, as the file tree has them. */
export function pagesOfTree(): string[] {
  return filesOf("app", /(^|\/)page\.tsx$/).map((file) => addressOf(file))
}

/** All routes by method and address. */
export function routesOfTree(): string[] {
  return filesOf("app", /(^|\/)route\.tsx?$/).flatMap((file) =>
    [
      ...read(file).matchAll(
        /^export (?:const|async function|function) (GET|POST|PUT|PATCH|DELETE|HEAD)\b/gm,
      ),
    ].map((match) => `${match[1]} ${addressOf(file)}`),
  )
}

export type TreeAction = { name: string; source: string }

/** All server actions by file and name, with their source up to the next one. */
export function actionsOfTree(): TreeAction[] {
  return filesOf("app", /\.tsx?$/)
    .filter((file) => /["']use server["']/.test(read(file)))
    .flatMap((file) => {
      const text = read(file)
      const starts = [...text.matchAll(/^export (?:async function|const) (\w+)/gm)]
      return starts.map((start, place) => ({
        name: `${file} ${start[1]}`,
        source: text.slice(start.index, starts[place + 1]?.index),
      }))
    })
}

/** All commands of the command line by name. */
export function commandsOfTree(): string[] {
  return filesOf("lib/cli", /\.ts$/).flatMap((file) =>
    [...read(file).matchAll(/\.command\("([\w-]+)/g)].map((match) => match[1] ?? ""),
  )
}

/** The address of the screen or route of a file: folders in brackets are no part of it. */
export function addressOf(file: string): string {
  const parts = path.posix.dirname(file).split("/").slice(1)
  return `/${parts.filter((part) => !/^\(.*\)$/.test(part)).join("/")}`
}

function filesOf(folder: string, name: RegExp): string[] {
  return readdirSync(path.join(root, folder), { recursive: true, encoding: "utf8" })
    .filter((file) => name.test(file))
    .map((file) => path.posix.join(folder, file))
    .sort()
}

function read(file: string): string {
  return readFileSync(path.join(root, file), "utf8")
}
