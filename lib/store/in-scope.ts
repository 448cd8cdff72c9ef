import "server-only"
import { isWhole, type Scope } from "../access/scope"
import type { Prisma, PrismaClient } from "./generated/client"

const patience = { maxWait: 10_000, timeout: 60_000 } as const

/** Between two sites; and, alone, a panel that is nobody's. */
const separator = "\u001f"

/**
 * Runs `work` in one transaction that may see the patients in scope. The settings that say so end with the transaction, so
 * that the next who is given the connection sees nobody.
 */
export function inScope<T>(
  client: PrismaClient,
  scope: Scope,
  work: (transaction: Prisma.TransactionClient) => Promise<T>,
): Promise<T> {
  const told = {
    scope: isWhole(scope) ? "whole" : "part",
    sites: scope.sites?.join(separator) ?? "",
    panel: scope.panelOf === "" ? separator : (scope.panelOf ?? ""),
  }
  return client.$transaction(async (transaction) => {
    await transaction.$queryRaw`
      select set_config('filtrate.scope', ${told.scope}, true), set_config('filtrate.sites', ${told.sites}, true),
        set_config('filtrate.panel', ${told.panel}, true)`
    return work(transaction)
  }, patience)
}
