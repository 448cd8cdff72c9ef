import "server-only"
import { createHash, randomBytes } from "node:crypto"
import { existsSync, mkdirSync, readFileSync, renameSync, writeFileSync } from "node:fs"
import path from "node:path"
import pg from "pg"
import { z } from "zod"
import { databaseRoles, type DatabaseRole } from "./rights"
import { rightsSql, type RoleNames } from "./rights-sql"

/** Where each part of the program reaches the database, each as its own role. */
export type RoleUrls = Readonly<Record<DatabaseRole, string>>

const Passwords = z.object({ app: z.string(), import: z.string(), snapshot: z.string() })

const lock = 717_103

/**
 * Sees to the roles of the database and their rights, where the connection's role may: it owns the tables, and may make
 * roles. One that may not make roles hands the site `appUrl`, where a role for it is named, and else its own connection;
 * one that does not own the tables is itself such a role.
 */
export async function ensureDatabaseRoles(options: {
  url: string
  dataDir: string
  appUrl: string | undefined
}): Promise<RoleUrls> {
  const { url, dataDir, appUrl } = options
  const own: RoleUrls = { app: appUrl ?? url, import: url, snapshot: url }
  const client = new pg.Client({ connectionString: url })
  client.on("error", () => {})
  await client.connect()
  try {
    const standing = await readStanding(client)
    if (!standing.isOwner) return own
    if (standing.canMakeRoles && appUrl === undefined) {
      const passwords = readPasswords(dataDir)
      await applyRights(client, { names: namesIn(standing.database), passwords })
      return urlsOf(url, { names: namesIn(standing.database), passwords })
    }
    if (appUrl !== undefined)
      await applyRights(client, {
        names: { app: pg.escapeIdentifier(decodeURIComponent(new URL(appUrl).username)) },
      })
    return own
  } finally {
    await client.end()
  }
}

const Standing = z.object({ database: z.string(), isOwner: z.boolean(), canMakeRoles: z.boolean() })

async function readStanding(client: pg.Client): Promise<z.infer<typeof Standing>> {
  const result = await client.query(
    `select current_database() as database,
       (select pg_has_role(current_user, c.relowner, 'usage') from pg_class c where c.oid = to_regclass('public.clinics'))
         as "isOwner",
       (select r.rolsuper or r.rolcreaterole from pg_roles r where r.rolname = current_user) as "canMakeRoles"`,
  )
  return Standing.parse(result.rows[0])
}

/** Made known to the roles of this database alone: another of the same server has roles of its own. */
function namesIn(database: string): Required<RoleNames> {
  return { app: `${database}_app`, import: `${database}_import`, snapshot: `${database}_snapshot` }
}

/** The passwords of this installation; written at the first start for nobody but its user to read. */
function readPasswords(dataDir: string): z.infer<typeof Passwords> {
  const file = path.join(dataDir, "database-passwords")
  if (!existsSync(file)) {
    const fresh = Object.fromEntries(
      databaseRoles.map((role) => [role, randomBytes(24).toString("base64url")] as const),
    )
    mkdirSync(dataDir, { recursive: true })
    const draft = `${file}.${process.pid}`
    writeFileSync(draft, JSON.stringify(fresh), { mode: 0o600 })
    renameSync(draft, file)
  }
  return Passwords.parse(JSON.parse(readFileSync(file, "utf8")))
}

/** Runs the statements once for what they say; the database keeps a note of them, so that a start costs one look. */
async function applyRights(
  client: pg.Client,
  options: { names: RoleNames; passwords?: z.infer<typeof Passwords> },
): Promise<void> {
  const tables = await client.query<{ name: string }>(
    "select tablename as name from pg_tables where schemaname = 'public' order by tablename",
  )
  const rights = rightsSql(
    options.names,
    tables.rows.map((row) => row.name),
  )
  const logins = databaseRoles.flatMap((role) => {
    const name = options.names[role]
    const password = options.passwords?.[role]
    return name === undefined || password === undefined ? [] : loginSql(name, password)
  })
  const statements = [...logins, ...rights]
  const note = `rights ${createHash("sha256").update(statements.join(";\n")).digest("hex")}`
  if (await isNoted(client, note)) return
  await client.query("begin")
  await client.query("select pg_advisory_xact_lock($1)", [lock])
  if (!(await isNoted(client, note))) {
    for (const statement of statements) await client.query(statement)
    await client.query(`comment on schema public is ${pg.escapeLiteral(note)}`)
  }
  await client.query("commit")
}

async function isNoted(client: pg.Client, note: string): Promise<boolean> {
  const result = await client.query<{ note: string | null }>(
    "select obj_description('public'::regnamespace, 'pg_namespace') as note",
  )
  return result.rows[0]?.note === note
}

function loginSql(name: string, password: string): string[] {
  return [
    `do $$ begin
       if not exists (select from pg_roles where rolname = ${pg.escapeLiteral(name)}) then
         create role ${name};
       end if;
     end $$`,
    `alter role ${name} login nosuperuser nocreatedb nocreaterole noreplication password ${pg.escapeLiteral(password)}`,
  ]
}

function urlsOf(
  url: string,
  { names, passwords }: { names: Required<RoleNames>; passwords: z.infer<typeof Passwords> },
): RoleUrls {
  const of = (role: DatabaseRole) => {
    const own = new URL(url)
    own.username = names[role]
    own.password = passwords[role]
    return own.href
  }
  return { app: of("app"), import: of("import"), snapshot: of("snapshot") }
}
