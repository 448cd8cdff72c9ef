/** Progress for the person at the terminal; never on stdout, which carries results only. */
export function say(line: string): void {
  process.stderr.write(`${line}\n`)
}
