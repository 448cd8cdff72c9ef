import "server-only"
import { setTimeout as delay } from "node:timers/promises"
import type pg from "pg"
import { z } from "zod"
import { AppError } from "../errors"
import { lockClasses } from "./import-record"

const pollMs = 250

/**
 * Waits until no other import is storing; the turn lasts as long as the connection. Throws AppError("import-running") when
 * the other one is still at it after `waitMs`.
 */
export async function waitForTurn(
  client: pg.Client,
  options: { waitMs: number; onWait: () => Promise<void> },
): Promise<void> {
  const patience = performance.now() + options.waitMs
  let isWaiting = false
  while (!(await tryTurn(client))) {
    if (performance.now() > patience)
      throw new AppError(
        "import-running",
        "Another import is still running. Nothing was stored; start this one again when it is done.",
      )
    if (!isWaiting) await options.onWait()
    isWaiting = true
    await delay(pollMs)
  }
}

async function tryTurn(client: pg.Client): Promise<boolean> {
  const result = await client.query("select pg_try_advisory_lock($1, 0) as is_mine", [lockClasses.store])
  return z.object({ is_mine: z.boolean() }).parse(result.rows[0]).is_mine
}

/** Marks imports whose process is gone as failed; to be asked by whoever has the turn. */
export async function settleInterrupted(client: pg.Client, ownId: number): Promise<void> {
  await client.query(
    `update imports set status = 'failed', finished_at = now(),
       message = 'Stopped before it was stored. The clinic is as it was; start the import again.'
     where (status = 'running' or (status = 'waiting' and started_at < now() - interval '1 minute'))
       and id <> $1 and not exists (
       select from pg_locks
       where locktype = 'advisory' and classid = $2 and objid = imports.id and granted
         and database = (select oid from pg_database where datname = current_database()))`,
    [ownId, lockClasses.alive],
  )
}
