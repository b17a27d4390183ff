/** The units that a command shows: the same option wherever figures are printed. */
import { Option } from "commander";
import { unitSystems, type UnitSystem } from "../units/system.ts";

/** What a call says of units. */
export interface UnitsCall {
  readonly units: UnitSystem;
}

/** The option. */
export const unitsOption = (): Option =>
  new Option("--units <system>", "the units shown").choices([...unitSystems]).default("us");
