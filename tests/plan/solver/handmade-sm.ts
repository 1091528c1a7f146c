/** Made by hand in the published format; its critical path (jobs 1, 3, 4, 5) is 2 + 4 = 6. */
export const HANDMADE_SM = `****************************
jobs (incl. supersource/sink ):  5
****************************
PROJECT INFORMATION:
pronr.  #jobs rel.date duedate tardcost  MPM-Time
    1      3      0        9        0        6
****************************
PRECEDENCE RELATIONS:
jobnr.    #modes  #successors   successors
   1        1          2           2   3
   2        1          1           5
   3        1          1           4
   4        1          1           5
   5        1          0
****************************
REQUESTS/DURATIONS:
jobnr. mode duration  R 1  R 2
------------------------------
  1      1     0       0    0
  2      1     3       2    0
  3      1     2       1    1
  4      1     4       0    2
  5      1     0       0    0
****************************
RESOURCEAVAILABILITIES:
  R 1  R 2
    2    2
****************************
`;
