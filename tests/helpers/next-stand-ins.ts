import { EventEmitter } from "node:events"
import { PassThrough } from "node:stream"

/** What the framework would hand a route or an action of its request. */
type SentRequest = { headers: Headers; cookies: Map<string, string> }

/** The request that a test's next call is about. */
export const sent: SentRequest = { headers: new Headers(), cookies: new Map() }

/** For `next/headers`. What would be sent back is not taken over, so that each call comes from the same person. */
export const nextHeaders = {
  headers: () => Promise.resolve(sent.headers),
  cookies: () =>
    Promise.resolve({
      get: (name: string) => (sent.cookies.has(name) ? { value: sent.cookies.get(name) } : undefined),
      set: () => {},
      delete: () => {},
    }),
}

/** For `next/cache`. */
export const nextCache = { revalidatePath: () => {}, refresh: () => {} }

/** For `node:child_process`: a process that would be started is not, and closes without having said anything. */
export async function withoutProcesses(original: () => Promise<object>): Promise<object> {
  return { ...(await original()), spawn: silentProcess }
}

function silentProcess(): EventEmitter {
  const child = Object.assign(new EventEmitter(), { stdout: new PassThrough(), stderr: new PassThrough() })
  setImmediate(() => child.emit("close", 1))
  return child
}
