/* Adding-doubling for one slab between air and air, isotropic scattering, Fresnel boundaries: a plain implementation
   of the published method, as a peer for speed and as an independent value.

   Prahl, van Gemert, Welch 1993, Appl. Opt. 32:559-568 (method, directions split at the critical angle);
   Wiscombe 1976, J. Quant. Spectrosc. Radiat. Transfer 16:637-658 (diamond initialization).

   Reads lines "absorption scattering thickness index" (1/mm, 1/mm, mm) from standard input and prints for each number
   of directions the reflectance for diffuse light of every slab; then the time a slab.

   cc -O3 -march=native -o slab slab.c -lm */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#define MOST 64
#define SLABS 4096

/* Largest optical depth to start from, in units of the smallest cosine. */
#ifndef STEP
#define STEP 0.25
#endif

typedef double Matrix[MOST * MOST];

static int n;
static double mu[MOST], w[MOST], r_in[MOST], incident[MOST];
static double solidity;

static void gauss(int count, double from, double to, double *x, double *weight)
{
    for (int i = 0; i < count; i++) {
        double z = cos(M_PI * (i + 0.75) / (count + 0.5)), slope = 1, before;
        do {
            double p = 1, q = 0;
            for (int k = 1; k <= count; k++) {
                double last = q;
                q = p;
                p = ((2 * k - 1) * z * q - (k - 1) * last) / k;
            }
            slope = count * (z * p - q) / (z * z - 1);
            before = z;
            z -= p / slope;
        } while (fabs(z - before) > 1e-15);
        x[i] = from + (to - from) * (1 - z) / 2;
        weight[i] = (to - from) / ((1 - z * z) * slope * slope);
    }
}

static double fresnel(double n1, double c1, double n2, double c2)
{
    double s = (n1 * c1 - n2 * c2) / (n1 * c1 + n2 * c2), p = (n2 * c1 - n1 * c2) / (n2 * c1 + n1 * c2);
    return (s * s + p * p) / 2;
}

/* Directions for one index; made again only when it changes. */
static void directions(int count, double index)
{
    double critical = sqrt(1 - 1 / (index * index));
    n = count;
    gauss(n / 2, 0, critical, mu, w);
    gauss(n - n / 2, 0, 1, mu + n / 2, w + n / 2);
    solidity = 0;
    for (int i = 0; i < n; i++) {
        r_in[i] = 1;
        incident[i] = 0;
        if (i >= n / 2) {                    /* Gauss in the cosine outside, where Fresnel's formulas are smooth. */
            double outside = mu[i], inside = sqrt(1 - (1 - outside * outside) / (index * index));
            r_in[i] = fresnel(index, inside, 1, outside);
            incident[i] = 2 * outside * w[i];
            w[i] *= outside / (index * index * inside);
            mu[i] = inside;
        }
        solidity += incident[i];
    }
}

static void multiply(const double *restrict a, const double *restrict b, double *restrict c)
{
    for (int i = 0; i < n; i++) {
        double *restrict row = c + i * n;
        memset(row, 0, sizeof(double) * n);
        for (int k = 0; k < n; k++) {
            double f = a[i * n + k];
            for (int j = 0; j < n; j++)
                row[j] += f * b[k * n + j];
        }
    }
}

/* x = a^-1 b by Gaussian elimination with partial pivoting; a is destroyed. */
static void solve(double *restrict a, double *restrict b)
{
    for (int k = 0; k < n; k++) {
        int pivot = k;
        for (int i = k + 1; i < n; i++)
            if (fabs(a[i * n + k]) > fabs(a[pivot * n + k]))
                pivot = i;
        if (pivot != k)
            for (int j = 0; j < n; j++) {
                double t = a[k * n + j];
                a[k * n + j] = a[pivot * n + j];
                a[pivot * n + j] = t;
                t = b[k * n + j];
                b[k * n + j] = b[pivot * n + j];
                b[pivot * n + j] = t;
            }
        double scale = 1 / a[k * n + k];
        for (int i = k + 1; i < n; i++) {
            double f = a[i * n + k] * scale;
            if (f == 0)
                continue;
            for (int j = k; j < n; j++)
                a[i * n + j] -= f * a[k * n + j];
            for (int j = 0; j < n; j++)
                b[i * n + j] -= f * b[k * n + j];
        }
    }
    for (int k = n - 1; k >= 0; k--) {
        double scale = 1 / a[k * n + k];
        for (int j = 0; j < n; j++)
            b[k * n + j] *= scale;
        for (int i = 0; i < k; i++) {
            double f = a[i * n + k];
            for (int j = 0; j < n; j++)
                b[i * n + j] -= f * b[k * n + j];
        }
    }
}

/* Reflectance of the slab for diffuse light from air, all light that comes back counted, the surface's own too. */
static double slab(double absorption, double scattering, double thickness)
{
    static Matrix r, t, a, b, c, d;
    double depth = (absorption + scattering) * thickness, albedo = scattering / (absorption + scattering);
    int doublings = 0;
    while (depth > STEP * mu[0]) {
        depth /= 2;
        doublings++;
    }

    /* Fluxes: dF/dτ = -A F + B F', A = 1/μ - B, B = ω/2 w 1/μ'. Diamond: values at the middle are means of the ends. */
    for (int i = 0; i < n; i++)
        for (int j = 0; j < n; j++) {
            b[i * n + j] = depth / 2 * albedo / 2 * w[i] / mu[j];
            a[i * n + j] = (i == j ? 1 + depth / 2 / mu[i] : 0) - b[i * n + j];
            d[i * n + j] = i == j ? 2 : 0;
        }
    memcpy(c, a, sizeof(double) * n * n);
    solve(c, b);
    solve(a, d);                             /* d = 1 + M, M the part that passes unscattered downward */
    multiply(b, b, c);
    for (int i = 0; i < n * n; i++)
        c[i] = (i % (n + 1) == 0 ? 1 : 0) - c[i];
    multiply(b, d, r);
    solve(c, r);
    multiply(b, r, t);
    for (int i = 0; i < n * n; i++)
        t[i] += d[i] - (i % (n + 1) == 0 ? 1 : 0);

    for (int k = 0; k < doublings; k++) {
        multiply(r, r, a);
        for (int i = 0; i < n * n; i++)
            a[i] = (i % (n + 1) == 0 ? 1 : 0) - a[i];
        memcpy(b, t, sizeof(double) * n * n);
        solve(a, b);
        multiply(r, b, c);
        multiply(t, c, d);
        for (int i = 0; i < n * n; i++)
            r[i] += d[i];
        multiply(t, b, c);
        memcpy(t, c, sizeof(double) * n * n);
    }

    /* Lower surface: what leaves the slab is reflected by it: R + T r (1 - R r)^-1 T. */
    for (int i = 0; i < n; i++)
        for (int j = 0; j < n; j++)
            a[i * n + j] = (i == j ? 1 : 0) - r[i * n + j] * r_in[j];
    memcpy(b, t, sizeof(double) * n * n);
    solve(a, b);
    for (int i = 0; i < n; i++)
        for (int j = 0; j < n; j++)
            c[i * n + j] = r_in[i] * b[i * n + j];
    multiply(t, c, d);
    for (int i = 0; i < n * n; i++)
        r[i] += d[i];

    /* Upper surface, for the light that enters: f = (1 - R r)^-1 R e. */
    double e[MOST], f[MOST], reading = 0;
    for (int i = 0; i < n; i++)
        e[i] = (1 - r_in[i]) * incident[i] / solidity;
    for (int i = 0; i < n; i++) {
        f[i] = 0;
        for (int j = 0; j < n; j++) {
            f[i] += r[i * n + j] * e[j];
            a[i * n + j] = (i == j ? 1 : 0) - r[i * n + j] * r_in[j];
        }
    }
    memset(b, 0, sizeof(double) * n * n);
    for (int i = 0; i < n; i++)
        b[i * n] = f[i];
    solve(a, b);
    for (int i = 0; i < n; i++)
        reading += incident[i] / solidity * r_in[i] + (1 - r_in[i]) * b[i * n];
    return reading;
}

int main(int argc, char **argv)
{
    static double k[SLABS], s[SLABS], mm[SLABS], index[SLABS];
    int slabs = 0;
    while (slabs < SLABS && scanf("%lf %lf %lf %lf", &k[slabs], &s[slabs], &mm[slabs], &index[slabs]) == 4)
        slabs++;
    for (int arg = 1; arg < argc; arg++) {
        int count = atoi(argv[arg]);
        if (count < 4 || count > MOST || count % 2 != 0) {
            fprintf(stderr, "directions must be an even number from 4 to %d\n", MOST);
            return 1;
        }
        struct timespec from, to;
        double *reading = malloc(sizeof(double) * slabs);
        clock_gettime(CLOCK_MONOTONIC, &from);
        for (int i = 0; i < slabs; i++) {
            if (i == 0 || index[i] != index[i - 1])
                directions(count, index[i]);
            reading[i] = slab(k[i], s[i], mm[i]);
        }
        clock_gettime(CLOCK_MONOTONIC, &to);
        printf("%d %.1f", count, ((to.tv_sec - from.tv_sec) * 1e9 + (to.tv_nsec - from.tv_nsec)) / slabs);
        for (int i = 0; i < slabs; i++)
            printf(" %.9f", reading[i]);
        printf("\n");
        free(reading);
    }
    return 0;
}
