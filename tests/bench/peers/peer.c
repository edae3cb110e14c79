/*
 * The workloads as a careful C programmer writes them: one thread, xoshiro256++, a ziggurat of 256 layers, a histogram,
 * quickselect and a sort of the two tails alone. Reads lines "W1 1000000 7" (workload, trials, seed) and answers each
 * with one line of JSON. Constants are those of ../workloads.
 *
 *     gcc -O3 -march=native -o peer peer.c -lm
 */
#define _GNU_SOURCE
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <time.h>

enum { BINS = 200, MOST_OUTPUTS = 3 };
static const double PROBABILITY = 0.95;

/* xoshiro256++ (Blackman and Vigna 2019), started by splitmix64. */
static uint64_t state[4];

static inline uint64_t rotated(uint64_t x, int k) { return (x << k) | (x >> (64 - k)); }

static inline uint64_t next(void) {
  const uint64_t result = rotated(state[0] + state[3], 23) + state[0];
  const uint64_t t = state[1] << 17;
  state[2] ^= state[0];
  state[3] ^= state[1];
  state[1] ^= state[2];
  state[0] ^= state[3];
  state[2] ^= t;
  state[3] = rotated(state[3], 45);
  return result;
}

static void start(uint64_t seed) {
  for (int i = 0; i < 4; i++) {
    uint64_t z = (seed += 0x9e3779b97f4a7c15u);
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
    state[i] = z ^ (z >> 31);
  }
}

/* 53 bits in [0, 1). */
static inline double uniform(void) { return (double)(next() >> 11) * 0x1p-53; }

/* Uniform on [-1, 1). */
static inline double centred(void) { return (double)((int64_t)next() >> 10) * 0x1p-53; }

/* Marsaglia and Tsang (2000); layer and position from disjoint bits (Doornik 2005). */
enum { LAYERS = 256 };
static const double TAIL = 3.6541528853610088;
static double edges[LAYERS + 1], heights[LAYERS + 1];

static double density(double x) { return exp(-0.5 * x * x); }

static void make_ziggurat(void) {
  const double area = 0.004928673233974658;
  edges[0] = area / density(TAIL);
  edges[1] = TAIL;
  for (int i = 2; i < LAYERS; i++) edges[i] = sqrt(-2 * log(area / edges[i - 1] + density(edges[i - 1])));
  edges[LAYERS] = 0;
  for (int i = 0; i <= LAYERS; i++) heights[i] = density(edges[i]);
}

static inline double normal(void) {
  for (;;) {
    const uint64_t bits = next();
    const int layer = bits & 255;
    const double x = (double)((int64_t)bits >> 10) * 0x1p-53 * edges[layer];
    if (__builtin_expect(fabs(x) < edges[layer + 1], 1)) return x;
    if (layer == 0) {
      for (;;) {
        const double a = -log(1 - uniform()) / TAIL;
        const double b = -log(1 - uniform());
        if (b + b > a * a) return x < 0 ? -(TAIL + a) : TAIL + a;
      }
    }
    if (heights[layer] + uniform() * (heights[layer + 1] - heights[layer]) < density(x)) return x;
  }
}

/* Marsaglia and Tsang (2000), shape at least 1, scale 1. */
static inline double gamma_variate(double shape) {
  const double d = shape - 1.0 / 3, c = 1 / sqrt(9 * d);
  for (;;) {
    const double x = normal(), root = 1 + c * x;
    if (root <= 0) continue;
    const double v = root * root * root, x2 = x * x, u = uniform();
    if (u < 1 - 0.0331 * x2 * x2 || log(u) < 0.5 * x2 + d * (1 - v + log(v))) return d * v;
  }
}

static inline double student(double nu) { return normal() * sqrt(nu / (2 * gamma_variate(nu / 2))); }

/* IEC 60751, clause 4; below 0 degrees two Newton steps from the polynomial of ASTM E1137. */
static const double A = 3.9083e-3, B = -5.775e-7, C = -4.183e-12;
static const double LOWEST_RATIO = 0.1852008, HIGHEST_RATIO = 3.90481125;

static double below_zero(double ratio) {
  const double x = ratio - 1;
  double t = x * (255.819 + x * (9.1455 + x * (-2.92363 + x * 1.7909)));
  for (int i = 0; i < 2; i++) {
    const double value = 1 + t * (A + t * B) + C * (t - 100) * t * t * t;
    t -= (value - ratio) / (A + 2 * B * t + C * t * t * (4 * t - 300));
  }
  return t;
}

static inline double iec_temperature(double ratio) {
  if (__builtin_expect(!(ratio >= LOWEST_RATIO * (1 - 1e-9) && ratio <= HIGHEST_RATIO * (1 + 1e-9)), 0)) return NAN;
  if (ratio < 1) return below_zero(ratio);
  return 2 * (ratio - 1) / (A + sqrt(A * A + 4 * B * (ratio - 1)));
}

/* ITS-90 (Metrologia 27 (1990) 3-10), equations (10a) and (10b): the published inverse, then one Newton step. */
static const double ITS_C[10] = {2.78157254, 1.64650916, -0.1371439, -0.00649767, -0.00234444, 0.00511868, 0.00187982, -0.00204472, -0.00046122, 0.00045724};
static const double ITS_D[10] = {439.932854, 472.41802, 37.684494, 7.472018, 2.920828, 0.005184, -0.963864, -0.188732, 0.191203, 0.049025};
static double its_slope[9];

/* Even and odd powers apart: two chains side by side. */
static inline double polynomial(const double *c, int n, double x) {
  const double z = x * x;
  double even = 0, odd = 0;
  for (int i = n - 1; i >= 0; i--) {
    if (i & 1) odd = odd * z + c[i];
    else even = even * z + c[i];
  }
  return even + x * odd;
}

static inline double its90_temperature(double W, double a, double b) {
  const double w = W - 1, Wr = W - w * (a + b * w);
  if (__builtin_expect(!(Wr >= 1 && Wr <= 4.2), 0)) return NAN;
  const double x = (polynomial(ITS_D, 10, (Wr - 2.64) / 1.64) + (273.15 - 754.15)) / 481;
  return 481 * (x - (polynomial(ITS_C, 10, x) - Wr) / polynomial(its_slope, 9, x)) + (754.15 - 273.15);
}

/* One trial of each workload. */
static inline void trial_w1(double *y) {
  const double probe = iec_temperature((151.3155 + 0.0006 * normal() + 0.0012 * centred()) / 100);
  const double reference = iec_temperature((151.33 + 0.0003 * normal() + 0.0008 * centred()) / 100.012) - 0.006 + 0.005 * normal();
  const double own = 0.003 * normal() - 0.003 * centred() - 0.004 * centred() - 0.007 * centred();
  y[0] = probe + own - (reference + 0.02 * centred() + 0.006 * centred() + 0.008 * centred());
}

static inline void trial_w2(double *y) {
  const double probe = iec_temperature((151.3155 + 0.0006 * normal() + 0.0012 * centred()) / 100);
  const double reference = its90_temperature((38.8451 + 0.0001 * normal() + 0.0002 * centred()) / 25.5, -2.1e-4, -1.2e-5) - 0.006 + 0.005 * normal();
  const double own = 0.003 * normal() - 0.003 * centred() - 0.004 * centred() - 0.007 * centred();
  y[0] = probe + own - (reference + 0.02 * centred() + 0.006 * centred() + 0.008 * centred());
}

static inline void trial_w3(double *y) {
  const double z = normal(), w = 0.6 * z + 0.8 * normal();
  const double probe = iec_temperature((151.3155 + 0.0006 * z + 0.0012 * centred()) / 100);
  const double reference = iec_temperature((151.33 + 0.0003 * w + 0.0008 * centred()) / 100.012) - 0.006 + 0.005 * normal();
  const double own = 0.003 * student(9) - 0.003 * centred() - 0.001 * gamma_variate(4) - 0.0035 * (centred() + centred());
  y[0] = probe + own - (reference + 0.02 * centred() + 0.006 * centred() + 0.008 * sin(M_PI * centred()));
}

static inline void trial_w6(double *y) {
  const double bath = iec_temperature((151.33 + 0.0003 * normal() + 0.0008 * centred()) / 100.012) - 0.006 + 0.005 * normal() + 0.008 * centred();
  y[0] = iec_temperature((151.3155 + 0.0006 * normal() + 0.0012 * centred()) / 100) - 0.007 * centred() - (bath + 0.02 * centred());
  y[1] = iec_temperature((151.309 + 0.0007 * normal() + 0.0012 * centred()) / 100) - 0.005 * centred() - (bath + 0.015 * centred());
  y[2] = bath;
}

static void draw_w1(double **y, long n) { for (long i = 0; i < n; i++) trial_w1(y[0] + i); }
static void draw_w2(double **y, long n) { for (long i = 0; i < n; i++) trial_w2(y[0] + i); }
static void draw_w3(double **y, long n) { for (long i = 0; i < n; i++) trial_w3(y[0] + i); }
static void draw_w6(double **y, long n) {
  for (long i = 0; i < n; i++) {
    double v[3];
    trial_w6(v);
    for (int j = 0; j < 3; j++) y[j][i] = v[j];
  }
}

static const struct { const char *name; void (*draw)(double **, long); int outputs; } WORKLOADS[] = {
  {"W1", draw_w1, 1}, {"W2", draw_w2, 1}, {"W3", draw_w3, 1}, {"W6", draw_w6, 3},
};

static inline void swap(double *a, double *b) { const double t = *a; *a = *b; *b = t; }

/* Hoare's partition about the median of three. On return a[low..j] <= pivot <= a[i..high], j < i. */
static void split(double *a, long low, long high, long *i_out, long *j_out) {
  const long middle = low + (high - low) / 2;
  if (a[middle] < a[low]) swap(a + middle, a + low);
  if (a[high] < a[low]) swap(a + high, a + low);
  if (a[high] < a[middle]) swap(a + high, a + middle);
  const double pivot = a[middle];
  long i = low, j = high;
  while (i <= j) {
    while (a[i] < pivot) i++;
    while (pivot < a[j]) j--;
    if (i <= j) swap(a + i++, a + j--);
  }
  *i_out = i;
  *j_out = j;
}

/* Puts the k-th value (from 0) in its place in a[low..high], smaller ones before it. */
static void quickselect(double *a, long low, long high, long k) {
  while (low < high) {
    long i, j;
    split(a, low, high, &i, &j);
    if (k <= j) high = j;
    else if (k >= i) low = i;
    else return;
  }
}

static void sort(double *a, long low, long high) {
  while (high - low > 16) {
    long i, j;
    split(a, low, high, &i, &j);
    if (j - low < high - i) { sort(a, low, j); low = i; }
    else { sort(a, i, high); high = j; }
  }
  for (long i = low + 1; i <= high; i++) {
    const double value = a[i];
    long j = i - 1;
    for (; j >= low && a[j] > value; j--) a[j + 1] = a[j];
    a[j + 1] = value;
  }
}

struct figures {
  double estimate, u, symmetric[2], shortest[2], low, width;
  long below, above, counts[BINS];
};

/* JCGM 101, 7.7.1. */
static long spanned_ranks(long trials) {
  const double exact = PROBABILITY * trials, whole = floor(exact + 0.5);
  return fabs(exact - whole) < 1e-9 * fmax(1, whole) ? (long)whole : (long)floor(exact + 0.5);
}

/* Intervals and histogram of y, which is reordered. */
static void summarise(double *y, long n, struct figures *f) {
  const long q = spanned_ranks(n), starts = n - q;
  /* Every rank that an interval can end on is in one of the tails. */
  quickselect(y, 0, n - 1, starts - 1);
  quickselect(y, starts, n - 1, q);
  sort(y, 0, starts - 1);
  sort(y, q, n - 1);
  const long r = starts % 2 == 0 ? starts / 2 : (starts + 1) / 2;
  f->symmetric[0] = y[(r < 1 ? 1 : r) - 1];
  f->symmetric[1] = y[(r < 1 ? 1 : r) + q - 1];
  long best = 0;
  for (long i = 1; i < starts; i++) if (y[q + i] - y[i] < y[q + best] - y[best]) best = i;
  f->shortest[0] = y[best];
  f->shortest[1] = y[best + q];
  const long rank = lround(n * 1e-4) < 1 ? 1 : lround(n * 1e-4);
  const double low = y[rank - 1], high = y[n - rank], scale = BINS / (high - low);
  uint32_t counts[BINS + 2] = {0};
  for (long i = 0; i < n; i++) {
    const double place = (y[i] - low) * scale + 1;
    counts[place < 1 ? 0 : place >= BINS + 1 ? BINS + 1 : (int)place]++;
  }
  f->low = low;
  f->width = (high - low) / BINS;
  f->below = counts[0];
  f->above = counts[BINS + 1];
  for (int i = 0; i < BINS; i++) f->counts[i] = counts[i + 1];
}

/* k_p from the trials in their own order: Cholesky, squared distances, quickselect (JCGM 102, 7.7.2). */
static double ellipsoid_factor(double **y, long n, const double *means, double covariance[3][3]) {
  double l[3][3] = {{0}};
  for (int i = 0; i < 3; i++) {
    for (int j = 0; j <= i; j++) {
      double sum = covariance[i][j];
      for (int k = 0; k < j; k++) sum -= l[i][k] * l[j][k];
      l[i][j] = i == j ? sqrt(sum) : sum / l[j][j];
    }
  }
  double *distances = malloc(n * sizeof *distances);
  const double i0 = 1 / l[0][0], i1 = 1 / l[1][1], i2 = 1 / l[2][2];
  const double *a = y[0], *b = y[1], *c = y[2];
  for (long t = 0; t < n; t++) {
    const double z0 = (a[t] - means[0]) * i0;
    const double z1 = (b[t] - means[1] - l[1][0] * z0) * i1;
    const double z2 = (c[t] - means[2] - l[2][0] * z0 - l[2][1] * z1) * i2;
    distances[t] = z0 * z0 + z1 * z1 + z2 * z2;
  }
  const long k = spanned_ranks(n) - 1;
  quickselect(distances, 0, n - 1, k);
  const double factor = sqrt(distances[k]);
  free(distances);
  return factor;
}

/* Sum of (a - p), or of (a - p)(b - q) where there is a b: eight chains side by side, which the compiler puts in a register. */
static double shifted_product(const double *a, double p, const double *b, double q, long n) {
  double sums[8] = {0};
  long t = 0;
  for (; t + 8 <= n; t += 8) {
    for (int k = 0; k < 8; k++) sums[k] += b == NULL ? a[t + k] - p : (a[t + k] - p) * (b[t + k] - q);
  }
  for (; t < n; t++) sums[0] += b == NULL ? a[t] - p : (a[t] - p) * (b[t] - q);
  double sum = 0;
  for (int k = 0; k < 8; k++) sum += sums[k];
  return sum;
}

static double run(int w, long n, uint64_t seed, struct figures *f) {
  const int m = WORKLOADS[w].outputs;
  double *y[MOST_OUTPUTS];
  for (int i = 0; i < m; i++) y[i] = malloc(n * sizeof **y);
  start(seed);
  WORKLOADS[w].draw(y, n);
  /* Sums about a value near the mean keep their digits. */
  double means[3], covariance[3][3], shift[3];
  for (int i = 0; i < m; i++) {
    shift[i] = y[i][0];
    means[i] = shift[i] + shifted_product(y[i], shift[i], NULL, 0, n) / n;
  }
  for (int i = 0; i < m; i++) {
    for (int j = 0; j <= i; j++) {
      covariance[i][j] = covariance[j][i] = shifted_product(y[i], means[i], y[j], means[j], n) / (n - 1);
    }
  }
  const double factor = m > 1 ? ellipsoid_factor(y, n, means, covariance) : 0;
  for (int i = 0; i < m; i++) {
    f[i].estimate = means[i];
    f[i].u = sqrt(covariance[i][i]);
    summarise(y[i], n, f + i);
    free(y[i]);
  }
  return factor;
}

/* CRC-32 (the reflected 0xedb88320) over doubles, in the order that every contestant keeps. */
static uint32_t crc;

static void check(double value) {
  unsigned char bytes[sizeof value];
  memcpy(bytes, &value, sizeof value);
  for (size_t i = 0; i < sizeof value; i++) {
    crc ^= bytes[i];
    for (int k = 0; k < 8; k++) crc = crc & 1 ? (crc >> 1) ^ 0xedb88320u : crc >> 1;
  }
}

static uint32_t checksum(const struct figures *f, int m, double factor) {
  crc = 0xffffffffu;
  for (int i = 0; i < m; i++) {
    check(f[i].estimate);
    check(f[i].u);
    for (int e = 0; e < 2; e++) check(f[i].symmetric[e]);
    for (int e = 0; e < 2; e++) check(f[i].shortest[e]);
    check(f[i].low);
    check(f[i].width);
    check(f[i].below);
    for (int b = 0; b < BINS; b++) check(f[i].counts[b]);
    check(f[i].above);
  }
  check(factor);
  return ~crc;
}

static void answer(const char *name, int m, long n, unsigned long long seed, double milliseconds, const struct figures *f, double factor) {
  struct rusage usage;
  getrusage(RUSAGE_SELF, &usage);
  printf("{\"workload\":\"%s\",\"trials\":%ld,\"seed\":%llu,\"milliseconds\":%.4f,\"checksum\":\"%08x\",\"outputs\":[", name, n, seed, milliseconds, checksum(f, m, factor));
  for (int i = 0; i < m; i++) {
    printf("%s{\"estimate\":%.17g,\"standardUncertainty\":%.17g,\"symmetric\":[%.17g,%.17g],\"shortest\":[%.17g,%.17g],", i ? "," : "",
           f[i].estimate, f[i].u, f[i].symmetric[0], f[i].symmetric[1], f[i].shortest[0], f[i].shortest[1]);
    printf("\"histogram\":{\"low\":%.17g,\"width\":%.17g,\"below\":%ld,\"above\":%ld,\"counts\":[", f[i].low, f[i].width, f[i].below, f[i].above);
    for (int b = 0; b < BINS; b++) printf("%s%ld", b ? "," : "", f[i].counts[b]);
    printf("]}}");
  }
  printf("],\"ellipsoid\":");
  if (m > 1) printf("%.17g", factor);
  else printf("null");
  printf(",\"residentKb\":%ld}\n", usage.ru_maxrss);
  fflush(stdout);
}

int main(void) {
  make_ziggurat();
  for (int i = 1; i < 10; i++) its_slope[i - 1] = i * ITS_C[i];
  printf("{\"name\":\"C, gcc %s\"}\n", __VERSION__);
  fflush(stdout);
  char name[16];
  long trials;
  unsigned long long seed;
  while (scanf("%15s %ld %llu", name, &trials, &seed) == 3) {
    int w = 0;
    while (w < 4 && strcmp(name, WORKLOADS[w].name) != 0) w++;
    if (w == 4 || trials < 1000) {
      fprintf(stderr, "%s %ld: accepted are W1, W2, W3, W6 and at least 1000 trials\n", name, trials);
      return 2;
    }
    struct figures f[MOST_OUTPUTS];
    struct timespec from, to;
    clock_gettime(CLOCK_MONOTONIC, &from);
    const double factor = run(w, trials, seed, f);
    clock_gettime(CLOCK_MONOTONIC, &to);
    answer(name, WORKLOADS[w].outputs, trials, seed, (to.tv_sec - from.tv_sec) * 1e3 + (to.tv_nsec - from.tv_nsec) * 1e-6, f, factor);
  }
  return 0;
}
