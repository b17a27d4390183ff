#!/usr/bin/env node
// The program from its sources: they are TypeScript, so tsx is registered before they are loaded.
import { register } from "tsx/esm/api";

register();
const { runProcess } = await import("./main.ts");
await runProcess();
