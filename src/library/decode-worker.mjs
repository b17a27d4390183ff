// A thread starts without the loader its process may have: tsx is registered before the TypeScript is loaded.
import { register } from "tsx/esm/api";

register();
await import("./decode-worker.ts");
