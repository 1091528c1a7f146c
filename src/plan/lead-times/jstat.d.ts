/** The part of jstat that is used here; the package brings no types of its own. */
declare module 'jstat' {
  type Statistics = {
    normal: {
      pdf(x: number, mean: number, deviation: number): number;
      cdf(x: number, mean: number, deviation: number): number;
      inv(p: number, mean: number, deviation: number): number;
    };
    studentt: {
      cdf(x: number, freedom: number): number;
      inv(p: number, freedom: number): number;
    };
    inv(matrix: number[][]): number[][];
  };
  const statistics: Statistics;
  export default statistics;
}
