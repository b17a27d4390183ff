/** What is said wherever work with bats and balls is proposed. */

/** The usual cautions, one a sentence; usual practice, no source. */
export const cautions: readonly string[] = [
  "Swings add up: keep to your program's counts and rest days, and stop a round when the swing falls apart.",
  "Stop at pain, numbness or dizziness and see a licensed practitioner; nothing here is medical advice.",
  "Helmets on, a sound screen or net between bat and people, nobody inside the swing's reach or in the ball's way.",
  "The facility's rules, your league's rules and the law where you are come before anything on this page.",
];
