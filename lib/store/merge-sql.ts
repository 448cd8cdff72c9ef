import "server-only"
import type { Ledger } from "../domain/ledgers"

/**
 * The statements that hold the rows of one file against the facts in force, in the order in which they run.
 *
 * Tables of the transaction: `staged` (the good rows, shaped like the ledger), `side` (retractions and rejected rows whose
 * key could be read), `contested` (keys of which there is more than one row to decide between), `verdicts` (what becomes of
 * each row, with the version in force that it meets), `absent` (versions that a full extract no longer has).
 */
export function mergeSql(ledger: Ledger): { contested: string; verdicts: string[]; absent: string } {
  return {
    contested: contested(ledger),
    verdicts: [
      uncontestedVerdicts(ledger),
      lastLineVerdicts(ledger),
      ...(ledger.numberedWithout ? [numberedVerdicts(ledger)] : []),
    ],
    absent: absent(ledger),
  }
}

/** The tables that every file uses anew; `staged` has the shape of one ledger and is made for each. */
export const mergeTables = [
  `create temp table side (
    state text not null, key uuid not null, line int not null, is_numbered boolean not null) on commit drop`,
  "create temp table contested (key uuid primary key) on commit drop",
  `create temp table verdicts (
    line int not null, verdict text not null, old_import int, old_line int, occurrence int not null,
    is_moved boolean not null) on commit drop`,
  "create temp table absent (import_id int not null, line int not null) on commit drop",
  "create temp table released (patient_id text not null) on commit drop",
]

const inForce = "l.ended_at is null"

function contested({ table, numberedWithout }: Ledger): string {
  const severalInForce = `
    union
    select s.key from staged s join ${table} l on l.key = s.key and ${inForce} and l.occurrence > 1`
  return `
    insert into contested
    select key from staged group by key having count(*) > 1
    union
    select key from side where state = 'retracted'
    ${numberedWithout ? severalInForce : ""}`
}

function uncontestedVerdicts(ledger: Ledger): string {
  return `
    insert into verdicts
    select s.line, ${verdict(ledger, "s")}, l.import_id, l.line, ${occurrence(ledger, "coalesce(l.occurrence, 1)")},
      ${isMoved(ledger, "s")}
    from staged s left join ${ledger.table} l on l.key = s.key and ${inForce}
    where not exists (select from contested c where c.key = s.key)`
}

/** Facts with an id or a natural key: the last good line decides, and a retraction outweighs every line. */
function lastLineVerdicts(ledger: Ledger): string {
  const { table, numberedWithout } = ledger
  return `
    with candidates as (
      select s.*, row_number() over (
        partition by s.key order by ${isPreliminary(ledger, "s")}, s.line desc) as place
      from staged s join contested c on c.key = s.key
      ${numberedWithout ? `where s.${numberedWithout} is not null` : ""}
    ),
    retractions as (
      select key, line, row_number() over (partition by key order by line) as place
      from side where state = 'retracted' and not is_numbered
    )
    insert into verdicts
    select s.line,
      case when s.place > 1 or r.key is not null then 'unchanged' else ${verdict(ledger, "s")} end,
      case when s.place = 1 and r.key is null then l.import_id end,
      case when s.place = 1 and r.key is null then l.line end, 1,
      s.place = 1 and r.key is null and ${isMoved(ledger, "s")}
    from candidates s
    left join retractions r on r.key = s.key and r.place = 1
    left join ${table} l on l.key = s.key and ${inForce}
    union all
    select r.line, case when l.key is not null then 'withdrawn' else 'unchanged' end, l.import_id, l.line, 1, false
    from retractions r left join ${table} l on l.key = r.key and ${inForce} and r.place = 1`
}

/**
 * Facts without an id, told apart by their order: the n-th retraction takes the n-th; of the rest identical rows meet first,
 * then the n-th the n-th; a row that meets none is new and takes the lowest free place.
 */
function numberedVerdicts(ledger: Ledger): string {
  const { table, numberedWithout } = ledger
  return `
    with retractions as (
      select key, line, row_number() over (partition by key order by line) as n
      from side where state = 'retracted' and is_numbered
    ),
    retracted as (select key, count(*) as n from retractions group by key),
    good as (
      select s.*, coalesce(r.n, 0) as retracted_n, row_number() over (partition by s.key order by s.line) as n
      from staged s join contested c on c.key = s.key left join retracted r on r.key = s.key
      where s.${numberedWithout} is null
    ),
    arriving as (
      select *, row_number() over (partition by key, hash order by line) as n_of_hash from good where n > retracted_n
    ),
    standing as (
      select l.*, row_number() over (partition by l.key, l.hash order by l.occurrence) as n_of_hash
      from ${table} l join contested c on c.key = l.key left join retracted r on r.key = l.key
      where ${inForce} and l.${numberedWithout} is null and l.occurrence > coalesce(r.n, 0)
    ),
    identical as (
      select a.line, l.import_id as old_import, l.line as old_line, l.occurrence
      from arriving a join standing l on l.key = a.key and l.hash = a.hash and l.n_of_hash = a.n_of_hash
    ),
    arriving_rest as (
      select a.*, row_number() over (partition by a.key order by a.line) as n_of_rest
      from arriving a where not exists (select from identical i where i.line = a.line)
    ),
    standing_rest as (
      select l.*, row_number() over (partition by l.key order by l.occurrence) as n_of_rest
      from standing l
      where not exists (select from identical i where i.old_import = l.import_id and i.old_line = l.line)
    ),
    paired as (
      select a.line, ${verdict(ledger, "a")} as verdict, l.import_id as old_import, l.line as old_line, l.occurrence
      from arriving_rest a join standing_rest l on l.key = a.key and l.n_of_rest = a.n_of_rest
    ),
    fresh as (
      select a.key, a.line, a.retracted_n, row_number() over (partition by a.key order by a.line) as place
      from arriving_rest a where not exists (select from paired p where p.line = a.line)
    ),
    free as (
      select f.key, g.occurrence, row_number() over (partition by f.key order by g.occurrence) as place
      from (select key, min(retracted_n) as taken, count(*) as wanted from fresh group by key) f
      cross join lateral generate_series(
        f.taken + 1, f.taken + f.wanted + (select count(*) from standing l where l.key = f.key)) as g(occurrence)
      where not exists (select from standing l where l.key = f.key and l.occurrence = g.occurrence)
    )
    insert into verdicts
    select line, 'unchanged', null, null, 1, false from good where n <= retracted_n
    union all
    select line, 'unchanged', old_import, old_line, occurrence, false from identical
    union all
    select line, verdict, old_import, old_line, occurrence, false from paired
    union all
    select f.line, 'added', null, null, free.occurrence, false
    from fresh f join free on free.key = f.key and free.place = f.place
    union all
    select r.line, case when l.key is null then 'unchanged' else 'withdrawn' end, l.import_id, l.line, 1, false
    from retractions r left join ${table} l on l.key = r.key and ${inForce} and l.occurrence = r.n`
}

/** What a full extract no longer has; it never had what was typed by hand. A rejected row still shows that its fact is there: it spares one version of its key. */
function absent({ table, numberedWithout }: Ledger): string {
  return `
    with unmet as (
      select l.import_id, l.line, l.key,
        row_number() over (partition by l.key order by ${numberedWithout ? "l.occurrence" : "1"}) as n
      from ${table} l
      where ${inForce} and not exists (
        select from verdicts v where v.old_import = l.import_id and v.old_line = l.line)
        and not exists (select from imports i where i.id = l.import_id and i.entered_by is not null)
    ),
    spared as (select key, count(*) as n from side where state = 'rejected' group by key)
    insert into absent
    select u.import_id, u.line from unmet u left join spared s on s.key = u.key where u.n > coalesce(s.n, 0)`
}

function verdict(ledger: Ledger, row: string): string {
  const isOvertaken = `${isPreliminary(ledger, row)} and not ${isPreliminary(ledger, "l")}`
  return `case when l.key is null then 'added' when l.hash = ${row}.hash then 'unchanged'
    ${ledger.canBePreliminary ? `when ${isOvertaken} then 'unchanged'` : ""} else 'changed' end`
}

function isPreliminary({ canBePreliminary }: Ledger, row: string): string {
  return canBePreliminary ? `(${row}.status = 'preliminary')` : "false"
}

function isMoved({ kind }: Ledger, row: string): string {
  return kind === "staff" ? "false" : `coalesce(l.patient_id <> ${row}.patient_id, false)`
}

function occurrence({ numberedWithout }: Ledger, expression: string): string {
  return numberedWithout ? expression : "1"
}
