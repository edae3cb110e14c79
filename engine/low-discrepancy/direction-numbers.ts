/*!
 * Direction numbers of Sobol' points: the set new-joe-kuo-6 (search criterion D(6)), dimensions 2 to 161 of its 21201.
 *
 * Source: S. Joe and F. Y. Kuo, "Constructing Sobol sequences with better two-dimensional projections", SIAM J. Sci.
 * Comput. 30, 2635-2654 (2008), https://web.maths.unsw.edu.au/~fkuo/sobol/. Licence of these figures:
 *
 * Copyright (c) 2008, Frances Y. Kuo and Stephen Joe
 * All rights reserved.
 *
 * Redistribution and use in source and binary forms, with or without modification, are permitted provided that the
 * following conditions are met:
 * - Redistributions of source code must retain the above copyright notice, this list of conditions and the following
 *   disclaimer.
 * - Redistributions in binary form must reproduce the above copyright notice, this list of conditions and the following
 *   disclaimer in the documentation and/or other materials provided with the distribution.
 * - Neither the names of the copyright holders nor the names of the University of New South Wales and the University of
 *   Waikato and its contributors may be used to endorse or promote products derived from this software without specific
 *   prior written permission.
 *
 * THIS SOFTWARE IS PROVIDED BY THE COPYRIGHT HOLDERS "AS IS" AND ANY EXPRESS OR IMPLIED WARRANTIES, INCLUDING, BUT NOT
 * LIMITED TO, THE IMPLIED WARRANTIES OF MERCHANTABILITY AND FITNESS FOR A PARTICULAR PURPOSE ARE DISCLAIMED. IN NO EVENT
 * SHALL THE COPYRIGHT HOLDERS OR CONTRIBUTORS BE LIABLE FOR ANY DIRECT, INDIRECT, INCIDENTAL, SPECIAL, EXEMPLARY, OR
 * CONSEQUENTIAL DAMAGES (INCLUDING, BUT NOT LIMITED TO, PROCUREMENT OF SUBSTITUTE GOODS OR SERVICES; LOSS OF USE, DATA,
 * OR PROFITS; OR BUSINESS INTERRUPTION) HOWEVER CAUSED AND ON ANY THEORY OF LIABILITY, WHETHER IN CONTRACT, STRICT
 * LIABILITY, OR TORT (INCLUDING NEGLIGENCE OR OTHERWISE) ARISING IN ANY WAY OUT OF THE USE OF THIS SOFTWARE, EVEN IF
 * ADVISED OF THE POSSIBILITY OF SUCH DAMAGE.
 */

/**
 * One entry per dimension from the second on, as in the published file: the inner coefficients a of the primitive
 * polynomial, as bits, then m_1 … m_s, where s is its degree.
 */
const PUBLISHED = `
0 1
1 1 3
1 1 3 1; 2 1 1 1
1 1 1 3 3; 4 1 3 5 13
2 1 1 5 5 17; 4 1 1 5 5 5; 7 1 1 7 11 19; 11 1 1 5 1 1; 13 1 1 1 3 11; 14 1 3 5 5 31
1 1 3 3 9 7 49; 13 1 1 1 15 21 21; 16 1 3 1 13 27 49; 19 1 1 1 15 7 5; 22 1 3 1 15 13 25; 25 1 1 5 5 19 61
1 1 3 7 11 23 15 103; 4 1 3 7 13 13 15 69; 7 1 1 3 13 7 35 63; 8 1 3 5 9 1 25 53; 14 1 3 1 13 9 35 107
19 1 3 1 5 27 61 31; 21 1 1 5 11 19 41 61; 28 1 3 5 3 3 13 69; 31 1 1 7 13 1 19 1; 32 1 3 7 5 13 19 59
37 1 1 3 9 25 29 41; 41 1 3 5 13 23 1 55; 42 1 3 7 3 13 59 17; 50 1 3 1 3 5 53 69; 55 1 1 5 5 23 33 13
56 1 1 7 7 1 61 123; 59 1 1 7 9 13 61 49; 62 1 3 3 5 3 55 33
14 1 3 1 15 31 13 49 245; 21 1 3 5 15 31 59 63 97; 22 1 3 1 11 11 11 77 249; 38 1 3 1 11 27 43 71 9
47 1 1 7 15 21 11 81 45; 49 1 3 7 3 25 31 65 79; 50 1 3 1 1 19 11 3 205; 52 1 1 5 9 19 21 29 157
56 1 3 7 11 1 33 89 185; 67 1 3 3 3 15 9 79 71; 70 1 3 7 11 15 39 119 27; 84 1 1 3 1 11 31 97 225
97 1 1 1 3 23 43 57 177; 103 1 3 7 7 17 17 37 71; 115 1 3 1 5 27 63 123 213; 122 1 1 3 5 11 43 53 133
8 1 3 5 5 29 17 47 173 479; 13 1 3 3 11 3 1 109 9 69; 16 1 1 1 5 17 39 23 5 343; 22 1 3 1 5 25 15 31 103 499
25 1 1 1 11 11 17 63 105 183; 44 1 1 5 11 9 29 97 231 363; 47 1 1 5 15 19 45 41 7 383; 52 1 3 7 7 31 19 83 137 221
55 1 1 1 3 23 15 111 223 83; 59 1 1 5 13 31 15 55 25 161; 62 1 1 3 13 25 47 39 87 257; 67 1 1 1 11 21 53 125 249 293
74 1 1 7 11 11 7 57 79 323; 81 1 1 5 5 17 13 81 3 131; 82 1 1 7 13 23 7 65 251 475; 87 1 3 5 1 9 43 3 149 11
91 1 1 3 13 31 13 13 255 487; 94 1 3 3 1 5 63 89 91 127; 103 1 1 3 3 1 19 123 127 237; 104 1 1 5 7 23 31 37 243 289
109 1 1 5 11 17 53 117 183 491; 122 1 1 1 5 1 13 13 209 345; 124 1 1 3 15 1 57 115 7 33
137 1 3 1 11 7 43 81 207 175; 138 1 3 1 1 15 27 63 255 49; 143 1 3 5 3 27 61 105 171 305; 145 1 1 5 3 1 3 57 249 149
152 1 1 3 5 5 57 15 13 159; 157 1 1 1 11 7 11 105 141 225; 167 1 3 3 5 27 59 121 101 271
173 1 3 5 9 11 49 51 59 115; 176 1 1 7 1 23 45 125 71 419; 181 1 1 3 5 23 5 105 109 75; 182 1 1 7 15 7 11 67 121 453
185 1 3 7 3 9 13 31 27 449; 191 1 3 1 15 19 39 39 89 15; 194 1 1 1 1 1 33 73 145 379; 199 1 3 1 15 15 43 29 13 483
218 1 1 7 3 19 27 85 131 431; 220 1 3 3 3 5 35 23 195 349; 227 1 3 3 7 9 27 39 59 297; 229 1 1 3 9 11 17 13 241 157
230 1 3 7 15 25 57 33 189 213; 234 1 1 7 1 9 55 73 83 217; 236 1 3 3 13 19 27 23 113 249
241 1 3 5 3 23 43 3 253 479; 244 1 1 5 5 11 5 45 117 217; 253 1 3 3 7 29 37 33 123 147
4 1 3 1 15 5 5 37 227 223 459; 13 1 1 7 5 5 39 63 255 135 487; 19 1 3 1 7 9 7 87 249 217 599
22 1 1 3 13 9 47 7 225 363 247; 50 1 3 7 13 19 13 9 67 9 737; 55 1 3 5 5 19 59 7 41 319 677
64 1 1 5 3 31 63 15 43 207 789; 69 1 1 7 9 13 39 3 47 497 169; 98 1 3 1 7 21 17 97 19 415 905
107 1 3 7 1 3 31 71 111 165 127; 115 1 1 5 11 1 61 83 119 203 847; 121 1 3 3 13 9 61 19 97 47 35
127 1 1 7 7 15 29 63 95 417 469; 134 1 3 1 9 25 9 71 57 213 385; 140 1 3 5 13 31 47 101 57 39 341
145 1 1 3 3 31 57 125 173 365 551; 152 1 3 7 1 13 57 67 157 451 707; 158 1 1 1 7 21 13 105 89 429 965
161 1 1 5 9 17 51 45 119 157 141; 171 1 3 7 7 13 45 91 9 129 741; 181 1 3 7 1 23 57 67 141 151 571
194 1 1 3 11 17 47 93 107 375 157; 199 1 3 3 5 11 21 43 51 169 915; 203 1 1 5 3 15 55 101 67 455 625
208 1 3 5 9 1 23 29 47 345 595; 227 1 3 7 7 5 49 29 155 323 589; 242 1 3 3 7 5 41 127 61 261 717
251 1 3 7 7 17 23 117 67 129 1009; 253 1 1 3 13 11 39 21 207 123 305; 265 1 1 3 9 29 3 95 47 231 73
266 1 3 1 9 1 29 117 21 441 259; 274 1 3 1 13 21 39 125 211 439 723; 283 1 1 7 3 17 63 115 89 49 773
289 1 3 7 13 11 33 101 107 63 73; 295 1 1 5 5 13 57 63 135 437 177; 301 1 1 3 7 27 63 93 47 417 483
316 1 1 3 1 23 29 1 191 49 23; 319 1 1 3 15 25 55 9 101 219 607; 324 1 3 1 7 7 19 51 251 393 307
346 1 3 3 3 25 55 17 75 337 3; 352 1 1 1 13 25 17 65 45 479 413; 361 1 1 7 7 27 49 99 161 213 727
367 1 3 5 1 23 5 43 41 251 857; 382 1 3 3 7 11 61 39 87 383 835; 395 1 1 3 15 13 7 29 7 505 923
398 1 3 7 1 5 31 47 157 445 501; 400 1 1 3 7 1 43 9 147 115 605; 412 1 3 3 13 5 1 119 211 455 1001
419 1 1 3 5 13 19 3 243 75 843; 422 1 3 7 7 1 19 91 249 357 589; 426 1 1 1 9 1 25 109 197 279 411
428 1 3 1 15 23 57 59 135 191 75; 433 1 1 5 15 29 21 39 253 383 349; 446 1 3 3 5 19 45 61 151 199 981
454 1 3 5 13 9 61 107 141 141 1; 457 1 3 1 11 27 25 85 105 309 979; 472 1 3 3 11 19 7 115 223 349 43
493 1 1 7 9 21 39 123 21 275 927; 505 1 1 7 13 15 41 47 243 303 437; 508 1 1 1 7 7 3 15 99 409 719
`;

/** A dimension's primitive polynomial x^s + a_1·x^(s−1) + … + a_(s−1)·x + 1 and its first direction integers. */
export interface DirectionNumbers {
  /** a_1 … a_(s−1) as bits, a_1 the highest. */
  readonly coefficients: number;
  /** m_1 … m_s, each odd, m_k < 2^k. */
  readonly initial: readonly number[];
}

/** By dimension from the second on; the first has no polynomial. */
export const directionNumbers: readonly DirectionNumbers[] = PUBLISHED.trim()
  .split(/[;\n]/)
  .map((entry) => {
    const [coefficients, ...initial] = entry.trim().split(" ").map(Number);
    return { coefficients: coefficients!, initial };
  });
