/*
 * Calls the shared library from C and compares it with the theory written out here for equal wavelengths: Kubelka 1948,
 * J. Opt. Soc. Am. 38:448, eq. for a layer on a backing, and Saunderson 1942, J. Opt. Soc. Am. 32:727, for the surface.
 * A grey body has L* = 116 Y^(1/3) - 16 and a* = b* = 0 (ISO/CIE 11664-4). Diffuse reflectance of the outer surface for
 * index 1.5: 0.091778 (quadrature, tests/reference/fresnel_diffuse.py), which gives 1 - (1 - 0.091778) / 1.5^2 inside;
 * at 8 degrees 0.0400 outside (Fresnel). Radiative transfer of a thick isotropic scatterer without a surface:
 * 1 - H(mu) sqrt(1 - albedo) of what falls in at mu, with H by its integral equation (Chandrasekhar 1960, Radiative
 * Transfer, chapter V); by reciprocity what is seen at mu in diffuse light. K and S stand for absorption K / 2 and
 * isotropic scattering (4 S + K / 2) / 3, as docs/layers.md defines them.
 */
#include <math.h>
#include <pthread.h>
#include <stdint.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include "ceramic_optics.h"

enum { WAVELENGTHS = 41, POINTS = 1000 };

static const double K = 0.1, S = 3, INDEX = 1.5, STUMP = 0.2, LIMIT = 3;
static const double OUTSIDE = 0.0400, INSIDE = 1 - (1 - 0.091778) / (1.5 * 1.5);

static int failures;
static ceramic_map shared;

static void check(int condition, const char *what) {
    if (!condition) {
        printf("FAILED: %s\n", what);
        failures++;
    }
}

/* What a call refused, with the words that its text must have; no name of another language is in it. */
static void refused(int32_t status, const char *words) {
    char text[4096] = "";
    check(status == CERAMIC_BAD_ARGUMENT, words);
    check(ceramic_last_error(text, sizeof text, NULL) == CERAMIC_OK, "the error can be asked for");
    if (!strstr(text, words) || strstr(text, "Mm") || strstr(text, "Parameter") || strstr(text, "Specular")) {
        printf("FAILED: '%s' is not in: %s\n", words, text);
        failures++;
    }
}

static int32_t stop_at_once(double completed, void *user) {
    *(double *)user = completed;
    return 1;
}

static ceramic_points packed(const double *mm, int count) {
    ceramic_points points = ceramic_points_unset();
    points.type = CERAMIC_DOUBLE;
    points.count = count;
    points.thickness = mm;
    points.thickness_stride = sizeof *mm;
    return points;
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
    double albedo = scattering / (absorption + scattering), root = sqrt(1 - albedo), seen = 1;
    double mu8 = cos(8 * acos(-1.0) / 180);
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

static const char *const D65[] = {"D65"}, *const TWO[] = {"D65", "FL11"};
static double k[WAVELENGTHS], s[WAVELENGTHS], stump[WAVELENGTHS], dark[WAVELENGTHS];
static ceramic_layer layers[2];
static ceramic_zone zones[2];

static ceramic_case grey_case(void) {
    for (int i = 0; i < WAVELENGTHS; i++) {
        k[i] = K;
        s[i] = S;
        stump[i] = STUMP;
        dark[i] = 0.06;
    }

    layers[0] = ceramic_layer_unset();
    layers[0].role = CERAMIC_CORE;
    layers[0].refractive_index = INDEX;
    layers[0].absorption = k;
    layers[0].scattering = s;
    layers[0].relative_uncertainty = 0.01;
    layers[1] = layers[0];
    layers[1].role = CERAMIC_VENEER;
    for (int i = 0; i < 2; i++) {
        zones[i] = ceramic_zone_unset();
        zones[i].stump = CERAMIC_STUMP_DIFFUSING;
        zones[i].name = i == 0 ? "body" : "cervical";
        zones[i].stump_reflectance = i == 0 ? stump : dark;
        zones[i].stump_refractive_index = INDEX;
        zones[i].reference = CERAMIC_TARGET;
        zones[i].target_lab[0] = lightness(1.5);
        zones[i].target_lab[1] = zones[i].target_lab[2] = 0;
        zones[i].strength = CERAMIC_STRENGTH_OF_CORE;
        zones[i].strength_limit_mm = 0.6 + 0.2 * i;
    }

    ceramic_case input = ceramic_case_unset();
    input.model = CERAMIC_TWO_FLUX;
    input.start_nm = 380;
    input.step_nm = 10;
    input.wavelengths = WAVELENGTHS;
    input.formula = CERAMIC_CIELAB;
    input.limit = LIMIT;
    input.layers = layers;
    input.layer_count = 1;
    input.zones = zones;
    input.zone_count = 1;
    input.coupling_index = INDEX; /* optical contact */
    input.min_mm = 0.3;
    input.max_mm = 2;
    input.illuminants = D65;
    input.illuminant_count = 1;
    input.observer = CERAMIC_2_DEGREES;
    return input;
}

static ceramic_map made(const ceramic_case *input) {
    ceramic_map map = 0;
    if (ceramic_map_create(input, NULL, NULL, &map) != CERAMIC_OK || map == 0) {
        char text[4096] = "";
        ceramic_last_error(text, sizeof text, NULL);
        printf("FAILED: no map: %s\n", text);
        exit(EXIT_FAILURE);
    }

    return map;
}

static ceramic_info info_of(ceramic_map map, int zone, double veneer_mm) {
    ceramic_info info = ceramic_info_unset();
    check(ceramic_map_info(map, zone, veneer_mm, &info) == CERAMIC_OK, "thicknesses are told");
    return info;
}

static void check_transport(void) {
    ceramic_case input = grey_case();
    layers[0].refractive_index = 1;
    zones[0].stump_refractive_index = input.coupling_index = 1;
    input.model = CERAMIC_RADIATIVE_TRANSFER;
    input.min_mm = 9;
    input.max_mm = 12;
    ceramic_map map = made(&input);
    double mm[] = {9, 10, 12}, lab[9], expected = thick_lightness(K / 2, (4 * S + K / 2) / 3), worst = 0;
    ceramic_points points = packed(mm, 3);
    check(ceramic_colors(map, &points, lab, 3 * sizeof *lab) == CERAMIC_OK, "its colours are given");
    for (int i = 0; i < 3; i++) {
        worst = fmax(worst, fmax(fabs(lab[3 * i] - expected), fmax(fabs(lab[3 * i + 1]), fabs(lab[3 * i + 2]))));
    }

    printf("largest departure from Chandrasekhar's H function: %.4f\n", worst);
    check(worst < 0.01, "colours are those of radiative transfer");
    int32_t codes[32];
    int64_t count = 0;
    check(ceramic_map_caution_codes(map, 0, codes, 32, &count) == CERAMIC_OK && count > 0, "cautions by number");
    for (int i = 0; i < count; i++) {
        check(codes[i] != CERAMIC_CAUTION_TWO_FLUX_THEORY, "nothing is said of two-flux theory");
    }

    check(ceramic_map_free(map) == CERAMIC_OK, "it is freed");
}

static void check_one_layer(void) {
    ceramic_case input = grey_case();
    ceramic_map map = made(&input);
    static double mm[POINTS], differences[POINTS], lab[3 * POINTS], missing[POINTS];
    static struct { float x, y, z, mm, difference, missing, lab[3]; uint8_t status, rgba[4]; } mesh[POINTS];
    static uint8_t statuses[POINTS];
    for (int i = 0; i < POINTS; i++) {
        mm[i] = 0.3 + 1.7 * i / (POINTS - 1.0);
        mesh[i].mm = (float)mm[i];
        mesh[i].x = mesh[i].y = mesh[i].z = 7;
    }

    mm[10] = NAN;
    mm[11] = 2.5;
    mesh[10].mm = NAN;
    ceramic_points points = packed(mm, POINTS), single = ceramic_points_unset();
    single.type = CERAMIC_FLOAT;
    single.count = POINTS;
    single.thickness = &mesh[0].mm;
    single.thickness_stride = sizeof *mesh;
    int64_t clipped = -1;
    check(ceramic_colors(map, &points, lab, 3 * sizeof *lab) == CERAMIC_OK, "colours are given");
    check(ceramic_differences(map, &points, differences, sizeof *differences) == CERAMIC_OK, "differences are given");
    check(ceramic_statuses(map, &points, statuses, 1) == CERAMIC_OK, "statuses are given");
    check(ceramic_missing(map, CERAMIC_RECOMMENDED, &points, missing, sizeof *missing) == CERAMIC_OK, "missing too");
    check(ceramic_differences(map, &single, &mesh[0].difference, sizeof *mesh) == CERAMIC_OK, "interleaved");
    check(ceramic_missing(map, CERAMIC_RECOMMENDED, &single, &mesh[0].missing, sizeof *mesh) == CERAMIC_OK, "missing");
    check(ceramic_colors(map, &single, mesh[0].lab, sizeof *mesh) == CERAMIC_OK, "interleaved colours");
    check(ceramic_statuses(map, &single, &mesh[0].status, sizeof *mesh) == CERAMIC_OK, "interleaved statuses");
    check(ceramic_srgb(map, &single, mesh[0].rgba, sizeof *mesh, &clipped) == CERAMIC_OK && clipped == 0, "sRGB");

    ceramic_info info = info_of(map, 0, NAN);
    check(info.error_bound <= 0.005 && info.limit == LIMIT && info.zone_count == 1, "the error bound is kept");
    double worst = 0;
    for (int i = 0; i < POINTS; i++) {
        check(mesh[i].x == 7 && mesh[i].y == 7 && mesh[i].z == 7, "what lies between is left alone");
        if (i == 10 || i == 11) {
            continue;
        }

        double expected = lightness(mm[i]), difference = fabs(expected - lightness(1.5));
        worst = fmax(worst, fabs(lab[3 * i] - expected));
        worst = fmax(worst, fmax(fabs(lab[3 * i + 1]), fabs(lab[3 * i + 2])));
        worst = fmax(worst, fabs(differences[i] - difference));
        check(fabs(mesh[i].difference - differences[i]) < 1e-4, "single precision agrees, the ends included");
        check(fabs(mesh[i].missing - missing[i]) < 1e-6 && fabs(mesh[i].lab[0] - lab[3 * i]) < 1e-4, "so do others");
        check(mesh[i].rgba[3] == 255 && abs(mesh[i].rgba[0] - mesh[i].rgba[2]) <= 1, "a grey is a grey");

        /* IEC 61966-2-1 for a grey: V = 1.055 Y^(1/2.4) - 0.055. Rounded, the matrix too. */
        double y = pow((expected + 16) / 116, 3), byte = 255 * (1.055 * pow(y, 1 / 2.4) - 0.055);
        check(fabs(mesh[i].rgba[1] - byte) < 0.6, "sRGB is that of the standard");
        if (fabs(difference - LIMIT) > 0.1) {
            int status = difference > LIMIT ? CERAMIC_SHOWS : mm[i] < 0.6 ? CERAMIC_BELOW_STRUCTURAL_MINIMUM
                : mm[i] < info.reliable_mm || mm[i] > info.reliable_up_to_mm ? CERAMIC_MASKED_BY_COLOR_ONLY
                : CERAMIC_MASKED_RELIABLY;
            check(statuses[i] == status && (mesh[i].status == status || fabs(mm[i] - 0.6) < 1e-6), "status");
        }
    }

    printf("largest departure from the theory written out: %.4f\n", worst);
    check(worst < 0.01, "colours and differences are those of Kubelka and Saunderson");
    check(fabs(fabs(lightness(info.by_color_mm) - lightness(1.5)) - LIMIT) < 0.05, "by colour the limit is met");
    check(statuses[10] == CERAMIC_NO_DATA && isnan(differences[10]) && isnan(missing[10]), "NaN is no data");
    check(mesh[10].status == CERAMIC_NO_DATA && mesh[10].rgba[3] == 0, "also in single precision");
    check(statuses[11] == CERAMIC_ABOVE_RANGE && isnan(differences[11]), "2.5 mm is above the range");
    check(isnan(missing[11]), "what a target says there is not known");
    check(fabs(missing[0] - (info.recommended_mm - 0.3)) < 1e-12 && missing[POINTS - 1] == 0, "missing is what lacks");
    check(info.by_color_mm < info.reliable_mm && info.reliable_share == 0.95, "reliable is more than by colour");
    check(info.structural_mm == 0.6 && info.recommended_mm == fmax(0.6, info.reliable_mm), "the larger counts");
    check(ceramic_missing(map, CERAMIC_BY_COLOR, &points, missing, sizeof *missing) == CERAMIC_OK
        && fabs(missing[0] - (fmax(0.6, info.by_color_mm) - 0.3)) < 1e-12, "goals can be chosen");
    refused(ceramic_missing(map, 4, &points, missing, sizeof *missing), "goal must be CERAMIC_RECOMMENDED (1)");
    refused(ceramic_missing(map, 0, &points, missing, sizeof *missing), "goal is not stated");

    check(info.by_color_up_to_mm >= 1.5 && info.reliable_up_to_mm <= info.by_color_up_to_mm, "a target has an end");

    char text[8192];
    int64_t needed = 0;
    check(ceramic_map_cautions(map, 0, text, sizeof text, &needed) == CERAMIC_OK
        && needed == (int64_t)strlen(text) + 1 && strstr(text, "strength"), "cautions are told");
    check(ceramic_map_cautions(map, 0, text, 5, &needed) == CERAMIC_OK && strlen(text) == 4 && needed > 5, "short");

    /* More uncertainty asks for more wall. */
    ceramic_uncertainty uncertain = ceramic_uncertainty_unset();
    input.uncertainty = &uncertain;
    ceramic_map same = made(&input);
    check(info_of(same, 0, NAN).reliable_mm == info.reliable_mm, "NaN is the library's uncertainty");
    uncertain.core_mm = 0.2;
    ceramic_map other = made(&input);
    check(info_of(other, 0, NAN).reliable_mm > info.reliable_mm + 0.1, "an uncertain thickness needs more");
    check(info_of(other, 0, NAN).standard_uncertainty_mm > info.standard_uncertainty_mm, "and is told");
    check(ceramic_map_free(same) == CERAMIC_OK && ceramic_map_free(other) == CERAMIC_OK, "they are freed");

    /* Saved and loaded it answers the same. */
    check(ceramic_map_save(map, 0, NULL, 0, &needed) == CERAMIC_OK && needed > 1000, "it can be saved");
    char *file = malloc((size_t)needed);
    const char *files[] = {file};
    refused(ceramic_map_save(map, 0, file, 10, NULL), "capacity must be at least");
    check(ceramic_map_save(map, 0, file, needed, NULL) == CERAMIC_OK, "it is saved");
    check(ceramic_map_load(CERAMIC_ONE_LAYER, files, &needed, 1, &other) == CERAMIC_OK, "and loaded");
    static double again[POINTS];
    check(ceramic_differences(other, &points, again, sizeof *again) == CERAMIC_OK
        && memcmp(again, differences, sizeof again) == 0, "to the same differences");
    check(ceramic_map_free(other) == CERAMIC_OK, "it is freed");
    check(ceramic_map_load(CERAMIC_TWO_LAYERS, files, &needed, 1, &other) == CERAMIC_BAD_FILE && other == 0, "kind");
    needed = 1;
    check(ceramic_map_load(CERAMIC_ONE_LAYER, files, &needed, 1, &other) == CERAMIC_BAD_FILE, "a broken file");
    free(file);

    refused(ceramic_differences(map, NULL, differences, 8), "points must not be NULL");
    ceramic_points bad = points;
    bad.size = 0;
    refused(ceramic_differences(map, &bad, differences, 8), "size of ceramic_points must be sizeof(ceramic_points)");
    bad = points;
    bad.type = 0;
    refused(ceramic_differences(map, &bad, differences, 8), "points.type is not stated");
    bad = points;
    bad.thickness = NULL;
    refused(ceramic_differences(map, &bad, differences, 8), "points.thickness must not be NULL");
    bad = points;
    bad.thickness_stride = 4;
    refused(ceramic_differences(map, &bad, differences, 8), "points.thickness_stride must be at least 8 bytes");
    bad = points;
    bad.count = -1;
    refused(ceramic_differences(map, &bad, differences, 8), "points.count must be 0 or more");
    bad = points;
    bad.veneer = mm;
    refused(ceramic_differences(map, &bad, differences, 8), "points.veneer must be NULL");
    refused(ceramic_differences(map, &points, differences, 0), "differences_stride must be at least 8 bytes");
    refused(ceramic_statuses(map, &points, NULL, 1), "statuses must not be NULL");
    refused(ceramic_map_info(map, 1, NAN, &info), "zone must be in [0, 0] but is 1");
    refused(ceramic_map_info(map, 0, 0.5, &info), "veneer_mm must be NaN");
    info.size = 0;
    refused(ceramic_map_info(map, 0, NAN, &info), "size of ceramic_info");
    points.count = 0;
    check(ceramic_differences(map, &points, NULL, 0) == CERAMIC_OK, "no points are no error");
    check(ceramic_map_free(map) == CERAMIC_OK, "a map is freed");
    refused(ceramic_map_free(map), "is freed");
    refused(ceramic_differences(map, &points, differences, 8), "is freed");
    refused(ceramic_suggestion_free(map), "suggestion");
}

/* The row of points below, with limits, with and without another suggestion. */
static void check_limits(
    ceramic_map map, ceramic_mesh mesh, const ceramic_points *points, ceramic_suggestion other, double body_mm) {
    enum { ROW = 40, LOCKED = 10 };
    double minima[ROW], maxima[ROW], wall[ROW], again[ROW];
    uint8_t statuses[ROW];
    int32_t margin[] = {0}, codes[32];
    for (int i = 0; i < ROW; i++) {
        minima[i] = maxima[i] = NAN;
    }

    minima[LOCKED] = maxima[LOCKED] = body_mm + 0.5;
    ceramic_limits limits = ceramic_limits_unset();
    limits.minima_mm = minima;
    limits.maxima_mm = maxima;
    limits.margin = margin;
    limits.margin_count = 1;
    limits.margin_edge_mm = 0.2;
    limits.margin_slope = 2;
    for (int i = 0; i < 2; i++) {
        ceramic_suggestion suggestion = 0;
        check(ceramic_suggestion_create(map, CERAMIC_RECOMMENDED, mesh, points, 0.5, &limits, i == 0 ? 0 : other, NULL,
            NULL, &suggestion) == CERAMIC_OK, "a wall within limits");
        check(ceramic_suggestion_values(suggestion, CERAMIC_DOUBLE, i == 0 ? wall : again, 8, NULL, 0, ROW)
            == CERAMIC_OK && ceramic_suggestion_statuses(suggestion, statuses, 1, ROW) == CERAMIC_OK, "its values");
        int64_t count = 0;
        int below = 0;
        check(ceramic_suggestion_caution_codes(suggestion, codes, 32, &count) == CERAMIC_OK, "its cautions");
        for (int k = 0; k < count; k++) {
            below += codes[k] == CERAMIC_CAUTION_WALL_BELOW_GOAL
                || codes[k] == CERAMIC_CAUTION_BELOW_STRUCTURAL_MINIMUM;
        }

        check(below == 2, "among them that the margin is below the goal and the strength limit");
        check(ceramic_suggestion_free(suggestion) == CERAMIC_OK, "freed");
    }

    check(memcmp(wall, again, sizeof wall) == 0, "another suggestion changes nothing");
    check(wall[0] == 0.2 && statuses[0] == CERAMIC_WALL_BELOW_STRUCTURAL_MINIMUM, "the margin is thin, and says so");
    check(fabs(wall[1] - 0.4) < 1e-6, "the wall rises from it");
    check(wall[LOCKED] == body_mm + 0.5 && fabs(wall[LOCKED + 1] - body_mm - 0.45) < 1e-6, "a locked wall leads");
    ceramic_suggestion none = 0;
    margin[0] = ROW;
    refused(ceramic_suggestion_create(map, CERAMIC_RECOMMENDED, mesh, points, 0.5, &limits, 0, NULL, NULL, &none),
        "limits.margin[0] must be in [0, 39] but is 40");
    margin[0] = 0;
    limits.margin_slope = NAN;
    refused(ceramic_suggestion_create(map, CERAMIC_RECOMMENDED, mesh, points, 0.5, &limits, 0, NULL, NULL, &none),
        "limits.margin_slope must be in [0, 10] but is NaN");
    limits.margin_count = 0;
    refused(ceramic_suggestion_create(map, CERAMIC_RECOMMENDED, mesh, points, 0.5, &limits, 0, NULL, NULL, &none),
        "limits.margin_edge_mm must be NaN");
    limits.margin_edge_mm = NAN;
    maxima[LOCKED] = 0.1;
    refused(ceramic_suggestion_create(map, CERAMIC_RECOMMENDED, mesh, points, 0.5, &limits, 0, NULL, NULL, &none),
        "limits: minimum of point 10 must be in [0, 0.1] mm");
    limits.size = 8;
    refused(ceramic_suggestion_create(map, CERAMIC_RECOMMENDED, mesh, points, 0.5, &limits, 0, NULL, NULL, &none),
        "size of ceramic_limits");
    refused(ceramic_suggestion_create(map, CERAMIC_RECOMMENDED, mesh, points, 0.5, NULL, mesh, NULL, NULL, &none),
        "previous");

    /* A square of two triangles, its positions interleaved: only neighbours' distances count. */
    const float corners[] = {0, 0, 0, -1, 1, 0, 0, -1, 1, 1, 0, -1, 0, 1, 0, -1};
    const int32_t triangles[] = {0, 1, 2, 0, 2, 3};
    const double mm[] = {1, 1, 1, 1};
    const uint8_t zones[] = {1, 0, 0, 0};
    double square[4];
    ceramic_points four = packed(mm, 4);
    four.zones = zones;
    four.zone_stride = 1;
    ceramic_mesh surface = 0;
    check(ceramic_mesh_from_triangles(corners, 16, 4, triangles, 2, &surface) == CERAMIC_OK, "triangles");
    check(ceramic_suggestion_create(map, CERAMIC_RECOMMENDED, surface, &four, 0.01, NULL, 0, NULL, NULL, &none)
        == CERAMIC_OK && ceramic_suggestion_values(none, CERAMIC_DOUBLE, square, 8, NULL, 0, 4) == CERAMIC_OK, "wall");
    check(fabs(square[0] - square[2] - 0.01 * sqrt(2)) < 1e-6 && fabs(square[0] - square[1] - 0.01) < 1e-6,
        "falls by slope times distance");
    check(ceramic_suggestion_free(none) == CERAMIC_OK && ceramic_mesh_free(surface) == CERAMIC_OK, "both are freed");
    refused(ceramic_mesh_from_triangles(corners, 4, 4, triangles, 2, &surface), "stride must be at least 12 bytes");
    refused(ceramic_mesh_from_triangles(corners, 16, 3, triangles, 2, &surface), "point of a triangle");
    refused(ceramic_mesh_from_triangles(NULL, 12, 3, NULL, 0, &surface), "positions must not be NULL");
}

static void check_zones_and_suggestion(void) {
    ceramic_case input = grey_case();
    input.zone_count = 2;
    input.illuminants = TWO;
    input.illuminant_count = 2;
    ceramic_map map = made(&input);
    enum { ROW = 40 };
    double mm[ROW], differences[ROW], wall[ROW], room[ROW];
    float single[ROW];
    uint8_t zone[ROW];
    ceramic_edge edges[ROW - 1];
    for (int i = 0; i < ROW; i++) {
        mm[i] = 1;
        zone[i] = i >= ROW / 2;
    }

    for (int i = 0; i + 1 < ROW; i++) {
        edges[i].a = i;
        edges[i].b = i + 1;
        edges[i].length_mm = 0.1;
    }

    ceramic_points points = packed(mm, ROW);
    refused(ceramic_differences(map, &points, differences, 8), "points.zones must not be NULL");
    points.zones = zone;
    points.zone_stride = 1;
    check(ceramic_differences(map, &points, differences, 8) == CERAMIC_OK, "zones are told apart");
    double expected = fabs(lightness(1) - lightness(1.5));
    check(fabs(differences[0] - expected) < 0.01 && differences[ROW - 1] > expected + 1, "a darker stump shows more");
    ceramic_info body = info_of(map, 0, NAN), cervical = info_of(map, 1, NAN);
    check(body.structural_mm == 0.6 && cervical.structural_mm == 0.8, "each has its strength limit");

    ceramic_mesh mesh = 0;
    ceramic_suggestion suggestion = 0;
    int64_t count = 0;
    uint8_t statuses[ROW];
    check(ceramic_mesh_from_edges(ROW, edges, ROW - 1, &mesh) == CERAMIC_OK && mesh != 0, "a mesh of edges");
    check(ceramic_suggestion_create(map, CERAMIC_RECOMMENDED, mesh, &points, 0.5, NULL, 0, NULL, NULL, &suggestion)
        == CERAMIC_OK && suggestion != 0, "a wall is suggested");
    check(ceramic_suggestion_values(suggestion, CERAMIC_DOUBLE, wall, 8, room, 8, ROW) == CERAMIC_OK, "its values");
    check(ceramic_suggestion_values(suggestion, CERAMIC_FLOAT, single, 4, NULL, 0, ROW) == CERAMIC_OK, "floats");
    check(ceramic_suggestion_statuses(suggestion, statuses, 1, ROW) == CERAMIC_OK, "its statuses");
    for (int i = 0; i < ROW; i++) {
        /* The larger of its own minimum and that of the other zone less slope times distance. */
        double own = i < ROW / 2 ? body.recommended_mm : cervical.recommended_mm;
        double away = i < ROW / 2 ? ROW / 2 - i : i - ROW / 2 + 1;
        double others = (i < ROW / 2 ? cervical.recommended_mm : body.recommended_mm) - 0.05 * away;
        check(fabs(wall[i] - fmax(own, others)) < 1e-6, "the wall is the thinnest that is not too steep");
        check(statuses[i] == CERAMIC_WALL_MEETS_GOAL, "and meets the goal");
        check(fabs(room[i] - fmax(0, wall[i] - 1)) < 1e-12, "room is what lacks");
        check(single[i] >= wall[i] && single[i] < wall[i] + 1e-6, "floats are rounded up");
    }

    int32_t codes[32];
    int strength = 0;
    check(ceramic_suggestion_caution_codes(suggestion, codes, 32, &count) == CERAMIC_OK, "it has cautions");
    for (int i = 0; i < count; i++) {
        strength += codes[i] == CERAMIC_CAUTION_STRENGTH_NOT_ASSESSED;
    }

    char text[8192];
    check(strength == 1, "among them that strength is not assessed");
    check(ceramic_suggestion_cautions(suggestion, text, sizeof text, NULL) == CERAMIC_OK && strstr(text, "strength"),
        "in words too");
    refused(ceramic_suggestion_values(suggestion, CERAMIC_DOUBLE, wall, 8, room, 8, 3), "count must be 40");
    refused(ceramic_suggestion_statuses(suggestion, NULL, 1, ROW), "statuses must not be NULL");
    check_limits(map, mesh, &points, suggestion, body.recommended_mm);
    check(ceramic_suggestion_free(suggestion) == CERAMIC_OK, "it is freed");
    refused(ceramic_suggestion_create(map, CERAMIC_RECOMMENDED, mesh, &points, 11, NULL, 0, NULL, NULL, &suggestion),
        "maximum_slope must be in [0, 10]");
    points.count = 3;
    refused(ceramic_suggestion_create(map, CERAMIC_RECOMMENDED, mesh, &points, 1, NULL, 0, NULL, NULL, &suggestion),
        "points.count must be 40, that of the mesh, but is 3");
    points.count = ROW;
    check(ceramic_mesh_free(mesh) == CERAMIC_OK, "the mesh is freed");
    refused(ceramic_suggestion_create(map, CERAMIC_RECOMMENDED, mesh, &points, 1, NULL, 0, NULL, NULL, &suggestion),
        "mesh");
    edges[0].b = ROW;
    refused(ceramic_mesh_from_edges(ROW, edges, ROW - 1, &mesh), "edge 0");
    edges[0] = (ceramic_edge){0, 0, 0};
    refused(ceramic_mesh_from_edges(ROW, edges, ROW - 1, &mesh), "edges[0] joins point 0 with itself");
    zone[3] = 2;
    refused(ceramic_differences(map, &points, differences, 8), "points.zones of point 3 must be in [0, 1] but is 2");
    check(ceramic_map_free(map) == CERAMIC_OK, "the map is freed");
}

static void check_two_layers(void) {
    ceramic_case input = grey_case();
    input.layer_count = 2;
    input.veneer_min_mm = 0.2;
    input.veneer_max_mm = 1;
    input.min_mm = 0.2;
    input.max_mm = 1.5;
    ceramic_map map = made(&input);
    enum { SIDE = 20 };
    double mm[SIDE * SIDE][2], lab[SIDE * SIDE][3], missing[SIDE * SIDE], worst = 0;
    uint8_t statuses[SIDE * SIDE];
    for (int i = 0; i < SIDE * SIDE; i++) {
        mm[i][0] = 0.2 + 0.8 * (i % SIDE) / (SIDE - 1.0);
        mm[i][1] = 0.2 + 1.3 * (i / SIDE) / (SIDE - 1.0);
    }

    ceramic_points points = packed(&mm[0][1], SIDE * SIDE);
    points.thickness_stride = points.veneer_stride = 2 * sizeof(double);
    points.veneer = mm;
    check(ceramic_colors(map, &points, lab, sizeof *lab) == CERAMIC_OK, "colours of two layers");
    check(ceramic_statuses(map, &points, statuses, 1) == CERAMIC_OK, "statuses of two layers");
    check(ceramic_missing(map, CERAMIC_RECOMMENDED, &points, missing, 8) == CERAMIC_OK, "missing cores");
    for (int i = 0; i < SIDE * SIDE; i++) {
        double expected = lightness(mm[i][0] + mm[i][1]), difference = fabs(expected - lightness(1.5));
        worst = fmax(worst, fmax(fabs(lab[i][0] - expected), fmax(fabs(lab[i][1]), fabs(lab[i][2]))));
        if (fabs(difference - LIMIT) > 0.1) {
            check(statuses[i] == (difference > LIMIT ? CERAMIC_SHOWS
                : mm[i][1] < 0.6 ? CERAMIC_BELOW_STRUCTURAL_MINIMUM
                : mm[i][1] < info_of(map, 0, mm[i][0]).reliable_mm ? CERAMIC_MASKED_BY_COLOR_ONLY
                : mm[i][1] > info_of(map, 0, mm[i][0]).reliable_up_to_mm ? CERAMIC_MASKED_BY_COLOR_ONLY
                : CERAMIC_MASKED_RELIABLY), "status of two layers");
        }
    }

    printf("largest departure of two equal layers from one: %.4f\n", worst);
    check(worst < 0.01, "two layers of one material are one layer");
    ceramic_info info = info_of(map, 0, 0.2);
    check(info.veneer_min_mm == 0.2 && info.veneer_max_mm == 1 && info.structural_mm == 0.6, "ranges of two layers");
    check(info.recommended_mm >= info.reliable_mm && info.recommended_mm >= 0.6, "the core under a veneer");
    check(fabs(missing[0] - (info.recommended_mm - 0.2)) < 1e-12, "is what lacks");
    refused(ceramic_map_info(map, 0, NAN, &info), "veneer_mm must be in [0.2, 1] mm but is NaN");
    ceramic_suggestion suggestion = 0;
    refused(ceramic_suggestion_create(map, CERAMIC_RECOMMENDED, 0, &points, 1, NULL, 0, NULL, NULL, &suggestion),
        "map must be over the wall alone");

    int64_t length = 0;
    ceramic_map_save(map, 0, NULL, 0, &length);
    char *file = malloc((size_t)length);
    const char *files[] = {file};
    double again[SIDE * SIDE][3];
    ceramic_map other = 0;
    check(ceramic_map_save(map, 0, file, length, NULL) == CERAMIC_OK
        && ceramic_map_load(CERAMIC_TWO_LAYERS, files, &length, 1, &other) == CERAMIC_OK, "saved and loaded");
    check(ceramic_colors(other, &points, again, sizeof *again) == CERAMIC_OK && memcmp(again, lab, sizeof lab) == 0,
        "to the same colours");
    free(file);
    points.veneer = NULL;
    refused(ceramic_statuses(map, &points, statuses, 1), "points.veneer must not be NULL");
    check(ceramic_map_free(map) == CERAMIC_OK && ceramic_map_free(other) == CERAMIC_OK, "they are freed");
}

/* The statuses of some walls, or cores under one veneer, given as doubles or rounded to float. */
static void statuses_of(ceramic_map map, const double *mm, int count, double veneer, int single, uint8_t *statuses) {
    float singles[8], veneers[8];
    double same[8];
    for (int i = 0; i < count; i++) {
        singles[i] = (float)mm[i];
        veneers[i] = (float)veneer;
        same[i] = veneer;
    }

    ceramic_points points = packed(mm, count);
    points.veneer = isnan(veneer) ? NULL : single ? (void *)veneers : (void *)same;
    points.veneer_stride = single ? sizeof *veneers : sizeof *same;
    if (single) {
        points.type = CERAMIC_FLOAT;
        points.thickness = singles;
        points.thickness_stride = sizeof *singles;
    }

    check(ceramic_statuses(map, &points, statuses, 1) == CERAMIC_OK, "statuses are given");
}

/* What a zone asks for gets the status that it promises, rounded to float and up to 0.01 mm too. */
static void check_agreement(void) {
    int recommended = 0;
    for (int number = 0; number < 30; number++) {
        ceramic_case input = grey_case();
        input.min_mm = 0.21 + 0.003 * number;
        input.max_mm = 2.13 + 0.007 * number;
        input.limit = 1.5 + 0.1 * (number % 7);
        input.layer_count = number % 3 == 2 ? 2 : 1;
        zones[0].strength_limit_mm = number % 5 == 4 ? 1.1 : 0.3;
        for (int i = 0; i < WAVELENGTHS; i++) {
            stump[i] = 0.05 + 0.01 * number;
            s[i] = 3 + 0.3 * number;
        }

        if (number % 2 == 0) {
            zones[0].reference = CERAMIC_SELF_BACKED;
            zones[0].target_lab[0] = zones[0].target_lab[1] = zones[0].target_lab[2] = NAN;
        }

        if (input.layer_count == 2) {
            input.veneer_min_mm = 0.2;
            input.veneer_max_mm = 1;
        }

        ceramic_map map = made(&input);
        for (int i = 0; i <= (input.layer_count == 2 ? 12 : 0); i++) {
            double veneer = input.layer_count == 2 ? 0.2 + 0.8 * i / 12 : NAN;
            ceramic_info info = info_of(map, 0, fmin(veneer, input.veneer_max_mm));
            double walls[] = {info.recommended_mm, fmin(ceil(info.recommended_mm * 100) / 100, input.max_mm),
                info.by_color_mm, input.min_mm, input.max_mm};
            for (int single = 0; single < 2; single++) {
                uint8_t statuses[5];
                statuses_of(map, walls, 5, fmin(veneer, input.veneer_max_mm), single, statuses);
                if (!isnan(info.recommended_mm)) {
                    recommended++;

                    /* A veneer rounded to float may be one for which the next step of the answer counts. */
                    int worst = single && input.layer_count == 2 ? CERAMIC_MASKED_BY_COLOR_ONLY
                        : CERAMIC_MASKED_RELIABLY;
                    check(statuses[0] <= worst && statuses[1] <= worst, "the recommended wall is masked reliably");
                }

                check(isnan(info.by_color_mm) ? statuses[2] == CERAMIC_NO_DATA : statuses[2] != CERAMIC_SHOWS,
                    "by colour nothing shows");
                check(statuses[3] < CERAMIC_NO_DATA && statuses[4] < CERAMIC_NO_DATA,
                    "ends are inside, as floats too");
            }
        }

        check(ceramic_map_free(map) == CERAMIC_OK, "it is freed");
    }

    check(recommended > 60, "many have an answer");
}

/* Each line spoils one field. */
static void check_refusals(void) {
    ceramic_map none = 7;
    ceramic_case input;
    memset(&input, 0, sizeof input);
    refused(ceramic_map_create(&input, NULL, NULL, &none), "size of ceramic_case must be sizeof(ceramic_case)");
    check(none == 0, "and no map is given");
    refused(ceramic_map_create(NULL, NULL, NULL, &none), "case must not be NULL");
    refused(ceramic_map_create(&input, NULL, NULL, NULL), "map must not be NULL");
#define REFUSED(spoil, words) \
    input = grey_case(); \
    spoil; \
    refused(ceramic_map_create(&input, NULL, NULL, &none), words)
    REFUSED(input.size--, "size of ceramic_case");
    REFUSED(input = ceramic_case_unset(), "case.wavelengths must be in [2, 10000] but is 0");
    REFUSED(input.model = 0, "case.model is not stated; it must be CERAMIC_TWO_FLUX (1)");
    REFUSED(input.formula = 0, "case.formula is not stated");
    REFUSED(input.observer = 0, "case.observer is not stated");
    REFUSED(input.start_nm = NAN, "case.start_nm must be");
    REFUSED(input.step_nm = 0, "case.step_nm must be");
    REFUSED(input.min_mm = -1, "case.min_mm must be in [0, 100] mm but is -1 mm");
    REFUSED(input.max_mm = NAN, "case.max_mm must be in [0.3, 100] mm but is NaN");
    REFUSED(input.veneer_min_mm = 0.3, "case.veneer_max_mm must be");
    REFUSED(input.veneer_min_mm = 0.3; input.veneer_max_mm = 1, "no layer has the role CERAMIC_VENEER");
    REFUSED(input.limit = NAN, "case.limit must be");
    REFUSED(input.limit = -1, "case.limit must be");
    REFUSED(input.coupling_index = NAN, "case.coupling_index");
    REFUSED(input.illuminants = NULL, "case.illuminants must not be NULL");
    const char *unknown[] = {"D99"};
    REFUSED(input.illuminants = unknown, "case.illuminants[0]: Unknown illuminant 'D99'; allowed: A, C");
    REFUSED(input.illuminant_count = 0, "case.illuminant_count must be in [1, 32] but is 0");
    REFUSED(input.reliable_share = 2, "case.reliable_share must be in [0.5, 0.999] but is 2");
    REFUSED(input.layers = NULL, "case.layers must not be NULL");
    REFUSED(input.layer_count = 0, "case.layer_count must be in [1, 5] but is 0");
    REFUSED(layers[0].size = 0, "size of ceramic_layer");
    REFUSED(layers[0].role = 0, "case.layers[0].role is not stated");
    REFUSED(layers[0].role = CERAMIC_LINER; layers[0].thickness_mm = 0.1, "must have the role CERAMIC_CORE");
    REFUSED(layers[0].thickness_mm = 1, "case.layers[0].thickness_mm must be NaN");
    REFUSED(layers[0].absorption = NULL, "case.layers[0].absorption must not be NULL");
    REFUSED(s[3] = NAN, "case.layers[0].scattering");
    REFUSED(layers[0].refractive_index = 0, "case.layers[0].refractive_index");
    REFUSED(layers[0].relative_uncertainty = -1, "case.layers[0].relative_uncertainty must be");
    REFUSED(input.layer_count = 2; layers[1].thickness_mm = 90, "thickness_mm of the veneer");
    REFUSED(input.layer_count = 2; layers[1].role = CERAMIC_CORE, "case.layers[1].role is that of a layer before it");
    REFUSED(input.zones = NULL, "case.zones must not be NULL");
    REFUSED(input.zone_count = 0, "case.zone_count must be in [1, 256] but is 0");
    REFUSED(input.zone_count = 2; zones[1].name = "body", "case.zones");
    REFUSED(zones[0].size = 0, "size of ceramic_zone");
    REFUSED(zones[0].name = NULL, "case.zones[0].name must not be NULL");
    REFUSED(zones[0].stump = 0, "case.zones[0].stump is not stated");
    REFUSED(zones[0].stump_reflectance = NULL, "case.zones[0].stump_reflectance must not be NULL");
    REFUSED(stump[5] = 0.01, "case.zones[0].stump_reflectance: 'body stump' at 430 nm reads 0.01");
    REFUSED(zones[0].stump_spot_mm = 0, "case.zones[0].stump_spot_mm, case.zones[0].stump_window_mm");
    REFUSED(zones[0].stump_spot_mm = INFINITY, "case.zones[0].stump_spot_mm, case.zones[0].stump_window_mm");
    REFUSED(zones[0].stump = CERAMIC_STUMP_METAL; zones[0].stump_refractive_index = NAN;
        zones[0].stump_window_mm = 3, "case.zones[0].stump_window_mm must be NaN");
    REFUSED(zones[0].target_window_mm = 3, "case.zones[0].target_spot_mm, case.zones[0].target_window_mm");
    REFUSED(zones[0].reference = CERAMIC_SELF_BACKED; zones[0].target_lab[0] = NAN; zones[0].target_spot_mm = 3,
        "case.zones[0].target_spot_mm must be NaN");
    REFUSED(zones[0].reference = 0, "case.zones[0].reference is not stated");
    REFUSED(zones[0].reference = CERAMIC_SELF_BACKED, "case.zones[0].target_lab[0] must be NaN");
    REFUSED(zones[0].target_lab[0] = NAN, "case.zones[0].target_lab");
    REFUSED(zones[0].strength = 0, "case.zones[0].strength is not stated; it must be CERAMIC_STRENGTH_NOT_GIVEN (1)");
    REFUSED(zones[0].strength_limit_mm = 0, "strength limit must be in [0.1, 100] mm but is 0 mm");
    REFUSED(zones[0].strength_limit_mm = NAN, "case.zones[0].strength_limit_mm");
    REFUSED(zones[0].strength = CERAMIC_STRENGTH_NOT_GIVEN, "case.zones[0].strength_limit_mm must be NaN");
    ceramic_uncertainty uncertain = ceramic_uncertainty_unset();
    uncertain.core_mm = 2;
    REFUSED(input.uncertainty = &uncertain, "case.uncertainty->core_mm must be in [0, 1] mm but is 2 mm");

    input = grey_case();
    double completed = -1;
    check(ceramic_map_create(&input, stop_at_once, &completed, &none) == CERAMIC_CANCELLED && none == 0
        && completed > 0, "work can be stopped");
    zones[0].strength = CERAMIC_STRENGTH_NOT_GIVEN;
    zones[0].strength_limit_mm = NAN;
    ceramic_map unlimited = made(&input);
    ceramic_info info = info_of(unlimited, 0, NAN);
    check(isnan(info.recommended_mm) && isnan(info.structural_mm) && info.reliable_mm > 0, "nothing is recommended");
    char text[8192];
    double mm = 0.5, missing = 0;
    ceramic_points points = packed(&mm, 1);
    check(ceramic_map_cautions(unlimited, 0, text, sizeof text, NULL) == CERAMIC_OK
        && strstr(text, "No strength limit"), "and a caution says so");
    check(ceramic_missing(unlimited, CERAMIC_RECOMMENDED, &points, &missing, 8) == CERAMIC_OK && isnan(missing), "nor");
    check(ceramic_map_free(unlimited) == CERAMIC_OK, "it is freed");
}

static bool has_code(ceramic_map map, int32_t code) {
    int32_t codes[32];
    int64_t count = 0;
    check(ceramic_map_caution_codes(map, 0, codes, 32, &count) == CERAMIC_OK && count <= 32, "codes");
    for (int64_t i = 0; i < count; i++) {
        if (codes[i] == code) {
            return true;
        }
    }

    return false;
}

/* Whether the areas of the readings of stump and target are known, in the cautions of the zone, by their names. */
static void check_area(void) {
    char text[8192];
    const double areas[] = {NAN, INFINITY, 2};
    double by_color[3];
    for (int i = 0; i < 3; i++) {
        ceramic_case input = grey_case();
        zones[0].stump_spot_mm = zones[0].stump_window_mm = areas[i];
        ceramic_map map = made(&input);
        by_color[i] = info_of(map, 0, NAN).by_color_mm;
        check(ceramic_map_cautions(map, 0, text, sizeof text, NULL) == CERAMIC_OK, "cautions");
        check((strstr(text, "'body stump' is not stated") != NULL) == (i == 0), "an area that is not stated is said");
        check(has_code(map, CERAMIC_CAUTION_LIGHT_LOST_SIDEWAYS) == (i == 2), "and a small window, by number");
        check(ceramic_map_free(map) == CERAMIC_OK, "it is freed");
    }

    check(by_color[0] == by_color[1], "not stated is taken as large");
    for (int i = 0; i < 3; i++) {
        ceramic_case input = grey_case();
        zones[0].stump_spot_mm = zones[0].stump_window_mm = INFINITY;
        zones[0].target_spot_mm = zones[0].target_window_mm = areas[i];
        ceramic_map map = made(&input);
        by_color[i] = info_of(map, 0, NAN).by_color_mm;
        check(ceramic_map_cautions(map, 0, text, sizeof text, NULL) == CERAMIC_OK, "cautions");
        check((strstr(text, "'target' is not stated") != NULL) == (i == 0), "nor is one of a target");
        check(has_code(map, CERAMIC_CAUTION_AREA_NOT_STATED) == (i == 0), "by number");
        check((strstr(text, "'target' was read through a window") != NULL) == (i == 2), "and its small window");
        check(ceramic_map_free(map) == CERAMIC_OK, "it is freed");
    }

    check(by_color[0] == by_color[1] && by_color[1] == by_color[2], "nothing is corrected");
}

static long resident_kib(void) {
    long kib = 0;
    FILE *file = fopen("/proc/self/status", "r");
    char line[256];
    while (file && fgets(line, sizeof line, file)) {
        if (sscanf(line, "VmRSS: %ld", &kib) == 1) {
            break;
        }
    }

    if (file) {
        fclose(file);
    }

    return kib;
}

/* Loaded from a file, since that is quick. A map holds about 10 KiB: if none were freed, three times what is let by. */
static void check_cycles(void) {
    enum { WARM = 500, CYCLES = 5000, LOST_KIB = 16 * 1024 };
    ceramic_case input = grey_case();
    ceramic_map map = made(&input), other = 0;
    int64_t length = 0;
    ceramic_map_save(map, 0, NULL, 0, &length);
    char *file = malloc((size_t)length);
    const char *files[] = {file};
    check(ceramic_map_save(map, 0, file, length, NULL) == CERAMIC_OK, "it is saved");
    check(ceramic_live_handles() == 1, "one handle is live");
    long before = 0;
    for (int i = 0; i < WARM + CYCLES; i++) {
        if (i == WARM) {
            before = resident_kib();
        }

        double mm = 1, difference = 0;
        ceramic_points points = packed(&mm, 1);
        check(ceramic_map_load(CERAMIC_ONE_LAYER, files, &length, 1, &other) == CERAMIC_OK
            && ceramic_differences(other, &points, &difference, 8) == CERAMIC_OK && difference > 0
            && ceramic_map_free(other) == CERAMIC_OK, "opened and closed");
    }

    long grown = resident_kib() - before;
    printf("resident memory after %d cycles: %ld KiB more\n", CYCLES, grown);
    check(grown < LOST_KIB, "no memory is lost");
    check(ceramic_map_free(map) == CERAMIC_OK && ceramic_live_handles() == 0, "no handle is left");
    free(file);
}

static void *worker(void *argument) {
    int turn = *(int *)argument;
    char text[4096];
    for (int i = 0; i < 50; i++) {
        ceramic_map map = 0;
        ceramic_info info = ceramic_info_unset();
        const char *words = turn ? "zone_count" : "kind";
        if ((turn ? ceramic_map_load(CERAMIC_ONE_LAYER, NULL, NULL, 0, &map) : ceramic_map_load(9, NULL, NULL, 1, &map))
                != CERAMIC_BAD_ARGUMENT
            || ceramic_last_error(text, sizeof text, NULL) != CERAMIC_OK || !strstr(text, words)
            || ceramic_map_info(shared, 0, NAN, &info) != CERAMIC_OK) {
            return "an error of another thread was told";
        }

        double mm[100], difference[100];
        for (int j = 0; j < 100; j++) {
            mm[j] = 0.3 + 0.017 * j;
        }

        ceramic_points points = packed(mm, 100);
        if (ceramic_differences(shared, &points, difference, 8) != CERAMIC_OK
            || fabs(difference[50] - fabs(lightness(mm[50]) - lightness(1.5))) > 0.01) {
            return "a difference is wrong";
        }
    }

    return NULL;
}

static void check_threads(void) {
    ceramic_case input = grey_case();
    shared = made(&input);
    pthread_t threads[2];
    int turns[] = {0, 1};
    for (int i = 0; i < 2; i++) {
        check(pthread_create(&threads[i], NULL, worker, &turns[i]) == 0, "a thread starts");
    }

    for (int i = 0; i < 2; i++) {
        void *wrong = NULL;
        pthread_join(threads[i], &wrong);
        check(wrong == NULL, wrong ? (const char *)wrong : "");
    }

    check(ceramic_map_free(shared) == CERAMIC_OK, "the shared map is freed");
}

int main(void) {
    char version[16];
    check(ceramic_version() == CERAMIC_OPTICS_VERSION, "header and library are of one version");
    check(ceramic_library_version(version, sizeof version, NULL) == CERAMIC_OK && strchr(version, '.'), "version");
    const uint32_t sizes[] = {sizeof(ceramic_case), sizeof(ceramic_layer), sizeof(ceramic_zone),
        sizeof(ceramic_uncertainty), sizeof(ceramic_points), sizeof(ceramic_edge), sizeof(ceramic_info),
        sizeof(ceramic_limits), 0};
    for (int i = 0; i < 9; i++) {
        check(ceramic_struct_size(i + 1) == sizes[i], "structures are as large as in the library");
    }

    check_one_layer();
    check_zones_and_suggestion();
    check_two_layers();
    check_agreement();
    check_transport();
    check_refusals();
    check_area();
    check_threads();
    check_cycles();
    if (failures == 0) {
        printf("C checks passed\n");
    }

    return failures == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
