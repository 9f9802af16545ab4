/*
 * Calls the shared library from C and compares it with the theory written out here for equal wavelengths:
 * Kubelka 1948, J. Opt. Soc. Am. 38:448, eq. for a layer on a backing, and Saunderson 1942, J. Opt. Soc. Am. 32:727, for the surface.
 * A grey body has L* = 116 Y^(1/3) - 16 and a* = b* = 0 (ISO/CIE 11664-4). Diffuse reflectance of the outer surface for index 1.5: 0.0918
 * (Judd 1942, J. Res. NBS 29:329, table; from memory), which gives 1 - (1 - 0.0918) / 1.5^2 inside; at 8 degrees 0.0400 outside (Fresnel).
 * Radiative transfer of a thick isotropic scatterer without a surface: 1 - H(mu) sqrt(1 - albedo) of what falls in at mu, with
 * H by its integral equation (Chandrasekhar 1960, Radiative Transfer, chapter V); by reciprocity what is seen at mu in diffuse light.
 * K and S stand for absorption K / 2 and isotropic scattering (4 S + K / 2) / 3, as docs/layers.md defines them.
 */
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include "ceramic_optics.h"

enum { WAVELENGTHS = 41, POINTS = 1000 };

static const double K = 0.1, S = 3, INDEX = 1.5, STUMP = 0.2, OUTSIDE = 0.0400, INSIDE = 1 - (1 - 0.0918) / (1.5 * 1.5), LIMIT = 3;

static int failures;

static void check(int condition, const char *what) {
    if (!condition) {
        printf("FAILED: %s\n", what);
        failures++;
    }
}

static double lightness(double mm) {
    double rg = (STUMP - OUTSIDE) / ((1 - OUTSIDE) * (1 - INSIDE) + INSIDE * (STUMP - OUTSIDE));
    double a = 1 + K / S, b = sqrt(a * a - 1), coth = 1 / tanh(b * S * mm);
    double r = (1 - rg * (a - b * coth)) / (a - rg + b * coth);
    double y = OUTSIDE + (1 - OUTSIDE) * (1 - INSIDE) * r / (1 - INSIDE * r);
    return 116 * cbrt(y) - 16;
}

/* L* of the thick scatterer seen at 8 degrees: the equation for H by midpoints and repeated substitution. */
static double thick_lightness(double absorption, double scattering) {
    enum { NODES = 400, ROUNDS = 200 };
    static double h[NODES];
    double albedo = scattering / (absorption + scattering), root = sqrt(1 - albedo), seen = 1, mu8 = cos(8 * acos(-1.0) / 180);
    for (int i = 0; i < NODES; i++) {
        h[i] = 1;
    }

    for (int round = 0; round < ROUNDS; round++) {
        for (int i = 0; i <= NODES; i++) {
            double mu = i < NODES ? (i + 0.5) / NODES : mu8, sum = 0;
            for (int j = 0; j < NODES; j++) {
                double other = (j + 0.5) / NODES;
                sum += other * h[j] / (mu + other) / NODES;
            }

            *(i < NODES ? &h[i] : &seen) = 1 / (root + albedo / 2 * sum);
        }
    }

    return 116 * cbrt(1 - seen * root) - 16;
}

static void check_transport(ceramic_case input) {
    ceramic_layer core = input.layers[0];
    core.refractive_index = 1;
    input.model = CERAMIC_RADIATIVE_TRANSFER;
    input.layers = &core;
    input.coupling_index = input.stump_refractive_index = 1;
    input.min_mm = 9;
    input.max_mm = 12;
    ceramic_response response = 0;
    check(ceramic_response_create(&input, &response) == CERAMIC_OK, "a response of radiative transfer is made");
    double mm[] = {9, 10, 12}, lab[9], expected = thick_lightness(K / 2, (4 * S + K / 2) / 3), worst = 0;
    check(ceramic_colors(response, mm, lab, 3) == CERAMIC_OK, "its colours are given");
    for (int i = 0; i < 3; i++) {
        worst = fmax(worst, fmax(fabs(lab[3 * i] - expected), fmax(fabs(lab[3 * i + 1]), fabs(lab[3 * i + 2]))));
    }

    printf("largest departure from Chandrasekhar's H function: %.4f\n", worst);
    check(worst < 0.01, "colours are those of radiative transfer");
    char text[4096];
    int64_t needed = 0;
    check(ceramic_response_cautions(response, text, sizeof text, &needed) == CERAMIC_OK && !strstr(text, "two-flux"), "nothing is said of two-flux theory");
    check(ceramic_response_free(response) == CERAMIC_OK, "it is freed");
}

static ceramic_case grey_case(void) {
    static double k[WAVELENGTHS], s[WAVELENGTHS], stump[WAVELENGTHS];
    static ceramic_layer core;
    for (int i = 0; i < WAVELENGTHS; i++) {
        k[i] = K;
        s[i] = S;
        stump[i] = STUMP;
    }

    ceramic_case input;
    memset(&input, 0, sizeof input);
    input.start_nm = 380;
    input.step_nm = 10;
    input.wavelengths = WAVELENGTHS;
    core.role = CERAMIC_CORE;
    core.refractive_index = INDEX;
    core.absorption = k;
    core.scattering = s;
    core.relative_uncertainty = 0.01;
    input.model = CERAMIC_TWO_FLUX;
    input.layer_count = 1;
    input.layers = &core;
    input.coupling_index = INDEX; /* optical contact */
    input.stump_reflectance = stump;
    input.stump_refractive_index = INDEX;
    input.min_mm = 0.3;
    input.max_mm = 2;
    input.reference = CERAMIC_TARGET;
    input.target_lab[0] = lightness(1.5);
    input.formula = CERAMIC_CIELAB;
    input.limit = LIMIT;
    input.strength_limit_mm = 0.6;
    return input;
}

int main(void) {
    ceramic_case input = grey_case();
    ceramic_response response = 0;
    check(ceramic_response_create(&input, &response) == CERAMIC_OK && response != 0, "a response is made");

    double mm[POINTS], differences[POINTS], lab[3 * POINTS], missing[POINTS];
    float buffer[4 * POINTS], single[POINTS];
    uint8_t statuses[POINTS];
    for (int i = 0; i < POINTS; i++) {
        mm[i] = 0.3 + 1.7 * i / (POINTS - 1.0);
        buffer[4 * i + 3] = (float)mm[i];
    }
    mm[10] = NAN;
    mm[11] = 2.5;

    check(ceramic_colors(response, mm, lab, POINTS) == CERAMIC_OK, "colours are given");
    check(ceramic_differences(response, mm, differences, POINTS) == CERAMIC_OK, "differences are given");
    check(ceramic_statuses(response, mm, statuses, POINTS) == CERAMIC_OK, "statuses are given");
    check(ceramic_missing_thicknesses(response, CERAMIC_RECOMMENDED, mm, missing, POINTS) == CERAMIC_OK, "missing thicknesses are given");
    check(ceramic_differences_interleaved(response, buffer, 4, 3, single, POINTS) == CERAMIC_OK, "interleaved differences are given");

    ceramic_info info;
    check(ceramic_response_info(response, &info) == CERAMIC_OK && info.error_bound <= 0.005, "the error bound is kept");
    double worst = 0;
    for (int i = 0; i < POINTS; i++) {
        if (i == 10 || i == 11) {
            continue;
        }

        double expected = lightness(mm[i]), difference = fabs(expected - lightness(1.5));
        worst = fmax(worst, fabs(lab[3 * i] - expected));
        worst = fmax(worst, fmax(fabs(lab[3 * i + 1]), fabs(lab[3 * i + 2])));
        worst = fmax(worst, fabs(differences[i] - difference));
        check(fabs(single[i] - differences[i]) < 1e-4, "single precision agrees");
        if (fabs(difference - LIMIT) > 0.1) {
            check(statuses[i] == (difference > LIMIT ? CERAMIC_SHOWS : mm[i] < 0.6 ? CERAMIC_BELOW_STRUCTURAL_MINIMUM : CERAMIC_MASKED_BY_COLOR), "status is that of the difference");
        }
    }

    printf("largest departure from the theory written out: %.4f\n", worst);
    check(worst < 0.01, "colours and differences are those of Kubelka and Saunderson");
    check(fabs(fabs(lightness(info.by_color_mm) - lightness(1.5)) - LIMIT) < 0.05, "the thickness by colour is where the difference is the limit");
    check(statuses[10] == CERAMIC_NO_DATA && isnan(differences[10]) && isnan(missing[10]), "NaN is no data");
    check(statuses[11] == CERAMIC_OUT_OF_RANGE && isnan(differences[11]), "2.5 mm is out of range");
    check(fabs(missing[0] - (info.recommended_mm - 0.3)) < 1e-12 && missing[POINTS - 1] == 0, "missing thickness leads to the recommended thickness");

    check(info.by_color_mm < info.reliable_mm && info.reliable_share == 0.95, "reliable is more than by colour");
    check(info.structural_mm == 0.6 && info.recommended_mm == fmax(0.6, info.reliable_mm), "the recommended thickness is the larger of reliable and strength");
    check(ceramic_missing_thicknesses(response, CERAMIC_BY_COLOR, mm, missing, POINTS) == CERAMIC_OK && fabs(missing[0] - (fmax(0.6, info.by_color_mm) - 0.3)) < 1e-12, "goals can be chosen");
    check(ceramic_missing_thicknesses(response, 3, mm, missing, POINTS) == CERAMIC_BAD_ARGUMENT, "other goals are refused");

    char text[4096];
    int64_t needed = 0;
    check(ceramic_response_cautions(response, text, sizeof text, &needed) == CERAMIC_OK && needed == (int64_t)strlen(text) + 1 && strstr(text, "strength"), "cautions are told");
    check(ceramic_response_cautions(response, text, 5, &needed) == CERAMIC_OK && strlen(text) == 4 && needed > 5, "a short buffer is kept");

    ceramic_response none = 7;
    input.model = 0;
    check(ceramic_response_create(&input, &none) == CERAMIC_BAD_ARGUMENT && none == 0, "a model that is not stated is refused");
    input.model = CERAMIC_TWO_FLUX;
    ceramic_response unlimited = 0;
    input.strength_limit_mm = NAN;
    check(ceramic_response_create(&input, &unlimited) == CERAMIC_OK && ceramic_response_info(unlimited, &info) == CERAMIC_OK, "a strength limit can be left out");
    check(isnan(info.recommended_mm) && isnan(info.structural_mm) && info.reliable_mm > 0, "without one nothing is recommended");
    check(ceramic_response_cautions(unlimited, text, sizeof text, &needed) == CERAMIC_OK && strstr(text, "No strength limit"), "and a caution says so");
    check(ceramic_missing_thicknesses(unlimited, CERAMIC_RECOMMENDED, mm, missing, POINTS) == CERAMIC_OK && isnan(missing[0]), "nor is any missing");
    check(ceramic_response_free(unlimited) == CERAMIC_OK, "it is freed");
    input.strength_limit_mm = 0.6;
    input.min_mm = -1;
    check(ceramic_response_create(&input, &none) == CERAMIC_BAD_ARGUMENT && none == 0, "a negative thickness is refused");
    check(ceramic_last_error(text, sizeof text, &needed) == CERAMIC_OK && strstr(text, "must be in [0") && strstr(text, "-1 mm"), "the error names value and range");
    check(ceramic_response_create(NULL, &none) == CERAMIC_BAD_ARGUMENT, "no input is refused");
    check(ceramic_response_load("{", 1, &none) == CERAMIC_BAD_FILE, "a broken file is refused");
    check(ceramic_differences(response, NULL, differences, 3) == CERAMIC_BAD_ARGUMENT, "a null pointer is refused");
    check(ceramic_differences(response, mm, differences, -1) == CERAMIC_BAD_ARGUMENT, "a negative count is refused");
    check(ceramic_differences(response, NULL, NULL, 0) == CERAMIC_OK, "no points are no error");
    check(ceramic_response_free(response) == CERAMIC_OK, "a response is freed");
    check(ceramic_response_free(response) == CERAMIC_BAD_ARGUMENT, "freeing twice is refused");
    check(ceramic_differences(response, mm, differences, POINTS) == CERAMIC_BAD_ARGUMENT, "a freed response is refused");

    check_transport(grey_case());
    if (failures == 0) {
        printf("C checks passed\n");
    }

    return failures == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
