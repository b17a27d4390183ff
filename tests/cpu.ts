/** Time that a busy machine doesn't stretch. */

/** What this process has computed since it began, ms of a core: a wait, or another's work, counts nothing. */
export function cpu_ms(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}
