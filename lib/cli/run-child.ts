import { spawn, type ChildProcess } from "node:child_process"
import { AppError } from "../errors"
import { projectDir, serverFlags } from "./project"

const running = new Set<ChildProcess>()

/**
 * Runs one of our own TypeScript programs in a process of its own, so that its memory goes with it.
 * Its progress appears on stderr as it comes; its results are dropped.
 * Throws AppError when it fails; it has said why itself.
 */
export async function runChild(step: {
  file: string
  args: string[]
  env: Record<string, string>
  failure: string
}): Promise<void> {
  const child = spawn(process.execPath, [...serverFlags, step.file, ...step.args], {
    cwd: projectDir,
    env: { ...process.env, ...step.env },
    detached: true,
    stdio: ["ignore", "ignore", "inherit", "ipc"],
  })
  const code = await ended(child)
  if (code !== 0) throw new AppError("start-failed", step.failure)
}

/** Waits for a child's end and answers its exit code; 1 when a signal ended it. */
export function ended(child: ChildProcess): Promise<number> {
  running.add(child)
  return new Promise((resolve) => {
    const end = (code: number) => {
      running.delete(child)
      resolve(code)
    }
    child.once("error", () => end(1))
    child.once("exit", (code) => end(code ?? 1))
  })
}

/** Asks every child to end, and ends those that do not within three seconds. */
export async function stopChildren(): Promise<void> {
  const children = [...running]
  const ends = children.map((child) => (child.exitCode === null ? ended(child) : Promise.resolve(0)))
  for (const child of children) child.kill("SIGTERM")
  const force = setTimeout(() => children.forEach((child) => child.kill("SIGKILL")), 3000)
  await Promise.all(ends)
  clearTimeout(force)
}
