// Before a program: a disk that lists each folder's names the other way round.
import fs from "node:fs";
import { syncBuiltinESMExports } from "node:module";

const { readdir } = fs.promises;
fs.promises.readdir = async (...args) => (await readdir(...args)).reverse();
syncBuiltinESMExports();
