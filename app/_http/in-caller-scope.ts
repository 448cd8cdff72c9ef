import "server-only"
import { store } from "../../lib/store/client"
import { inScope } from "../../lib/store/in-scope"
import { callerScope } from "./ask"

type Work<T> = Parameters<typeof inScope<T>>[2]

/** Reads or writes the record store about the patients whom the person may see; without it nobody is there. */
export async function inCallerScope<T>(work: Work<T>): Promise<T> {
  return inScope(store(), await callerScope(), work)
}
