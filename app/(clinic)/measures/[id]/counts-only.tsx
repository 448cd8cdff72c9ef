/** In the place of a list, for an account that sees counts and opens no person. */
export function CountsOnly() {
  return <p>This account sees counts and rates; who is behind them is for those who treat.</p>
}
