/** Loaded before a command in a process of its own: arms the fault that its environment holds. */
import { arm, install, type DiskFault } from "./inject.ts";

await install();
arm(JSON.parse(process.env["DISK_FAULT"]!) as DiskFault);
