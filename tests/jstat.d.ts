/** What the tests use of jstat, which comes without types. */
declare module "jstat" {
  interface Distribution {
    inv(p: number, ...parameters: number[]): number;
    cdf(x: number, ...parameters: number[]): number;
  }
  export const jStat: {
    studentt: Distribution;
    centralF: Distribution;
    normal: Distribution;
    beta: Distribution;
    mean(values: readonly number[]): number;
    stdev(values: readonly number[], sample: boolean): number;
    corrcoeff(a: readonly number[], b: readonly number[]): number;
    anovafscore(...groups: readonly (readonly number[])[]): number;
  };
}
