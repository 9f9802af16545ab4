/*
 * CeramicOptics for C, interface version 2: how well a wall of ceramic hides the stump, for many points.
 *
 * Functions that return int32_t give CERAMIC_OK or another status; ceramic_last_error has the text of the last error
 * of the calling thread. They may be called from several threads at once, and answers from one map too. Lengths are in
 * mm, wavelengths in nm, coefficients in 1/mm, reflectances 0 to 1. A number that is not known is NaN. Every structure
 * begins with its size: start from ceramic_..._unset(), since one that is all zeros is refused, and so are constants
 * that are not stated.
 *
 * The answers are about colour alone. They do not say whether a wall is strong enough, nor how much tooth may be
 * removed: show the cautions with every thickness, and leave the decision to licensed practice and local rules.
 *
 * The library holds a runtime with threads and signal handlers. It stays in memory once loaded (dlclose does not unload
 * it), does not survive fork without exec, and must not be called from a signal handler.
 */
#ifndef CERAMIC_OPTICS_H
#define CERAMIC_OPTICS_H

#include <math.h>
#include <stdint.h>
#include <string.h>

#ifdef __cplusplus
extern "C" {
#endif

#define CERAMIC_OPTICS_VERSION 2

/* Results of functions. */
enum {
    CERAMIC_OK = 0,
    CERAMIC_BAD_ARGUMENT = 1,
    CERAMIC_BAD_FILE = 2,
    CERAMIC_FAILED = 3,
    CERAMIC_CANCELLED = 4 /* the progress function returned something other than 0 */
};

/*
 * Statuses of points. The first that applies counts: no data, below and above the range, shows, below the structural
 * minimum, masked by colour only, masked reliably. At recommended_mm a point is masked reliably and at by_color_mm it
 * does not show, also where these are rounded to float. For a target, masked means that it is met, shows that it is
 * missed.
 */
enum {
    CERAMIC_MASKED_RELIABLY = 0,          /* the stated share of pieces masks, and a strength limit allows it */
    CERAMIC_MASKED_BY_COLOR_ONLY = 1,     /* the prediction masks, but within its uncertainty: half of all may show */
    CERAMIC_SHOWS = 2,                    /* the predicted difference is above the limit */
    CERAMIC_BELOW_STRUCTURAL_MINIMUM = 3, /* the prediction masks, but the strength limit is larger */
    CERAMIC_NO_DATA = 4,                  /* a thickness is NaN */
    CERAMIC_BELOW_RANGE = 5,              /* a thickness is below the range: nothing is known of its colour */
    CERAMIC_ABOVE_RANGE = 6               /* likewise above */
};

/* Status of a suggested wall at one point. */
enum {
    CERAMIC_WALL_MEETS_GOAL = 0, /* above the range, where a lock can lift it: as the end of the range does */
    CERAMIC_WALL_BELOW_GOAL = 1, /* kept there by a maximum, a locked wall or a margin; the stump can show */
    CERAMIC_WALL_BELOW_STRUCTURAL_MINIMUM = 2, /* likewise, and below the strength limit */
    CERAMIC_WALL_TOO_THICK_FOR_TARGET = 3, /* a neighbour, a minimum or a lock lifts it above what the target allows */
    CERAMIC_WALL_NO_ANSWER = 4, /* no thickness meets the goal; the wall follows strength, limits and neighbours */
    CERAMIC_WALL_NO_DATA = 5
};

/* The theory to which absorption and scattering belong: the one with which they were found. */
enum { CERAMIC_TWO_FLUX = 1, CERAMIC_RADIATIVE_TRANSFER = 2 };

/* Difference formulas. */
enum { CERAMIC_CIEDE2000 = 1, CERAMIC_CIELAB = 2 };

/* CIE observers of 1931 and 1964. */
enum { CERAMIC_2_DEGREES = 1, CERAMIC_10_DEGREES = 2 };

/* What layers are for. */
enum { CERAMIC_GLAZE = 1, CERAMIC_VENEER = 2, CERAMIC_CORE = 3, CERAMIC_LINER = 4, CERAMIC_CEMENT = 5 };

/* A body such as dentine, read in di:8, or an opaque metal without an inside. */
enum { CERAMIC_STUMP_DIFFUSING = 1, CERAMIC_STUMP_METAL = 2 };

/* What colours are compared with: the same wall on an infinitely thick one of its own, or a target. */
enum { CERAMIC_SELF_BACKED = 1, CERAMIC_TARGET = 2 };

/* Whether a strength limit is given, and which layers it counts. */
enum { CERAMIC_STRENGTH_NOT_GIVEN = 1, CERAMIC_STRENGTH_OF_CORE = 2, CERAMIC_STRENGTH_OF_CORE_AND_VENEER = 3 };

/* Which minimum is wanted; a strength limit that was given applies to all of them. */
enum { CERAMIC_RECOMMENDED = 1, CERAMIC_RELIABLE = 2, CERAMIC_BY_COLOR = 3 };

/* Types of numbers, and kinds of saved maps. */
enum { CERAMIC_FLOAT = 1, CERAMIC_DOUBLE = 2 };
enum { CERAMIC_ONE_LAYER = 1, CERAMIC_TWO_LAYERS = 2 };

/* Cautions by number; show their texts. Later versions may add some. */
enum {
    CERAMIC_CAUTION_STRENGTH_NOT_ASSESSED = 1,
    CERAMIC_CAUTION_STRENGTH_LIMIT_NOT_GIVEN = 2,
    CERAMIC_CAUTION_STRUCTURAL_MINIMUM_GOVERNS = 3,
    CERAMIC_CAUTION_BELOW_STRUCTURAL_MINIMUM = 4,
    CERAMIC_CAUTION_TOOTH_REDUCTION = 5,
    CERAMIC_CAUTION_NOT_RELIABLE = 6,
    CERAMIC_CAUTION_ABOVE_RANGE = 7,
    CERAMIC_CAUTION_TWO_FLUX_THEORY = 8,
    CERAMIC_CAUTION_ESTIMATED_SPECTRUM = 9,
    CERAMIC_CAUTION_SHORT_SPECTRUM = 10,
    CERAMIC_CAUTION_UNCERTAINTY_INCOMPLETE = 11,
    CERAMIC_CAUTION_SIDEWAYS_LIGHT = 12,
    CERAMIC_CAUTION_AREA_NOT_STATED = 13,
    CERAMIC_CAUTION_LIGHT_LOST_SIDEWAYS = 14,
    CERAMIC_CAUTION_EACH_POINT_ALONE = 15,
    CERAMIC_CAUTION_TOO_THICK_FOR_TARGET = 16,
    CERAMIC_CAUTION_WALL_BELOW_GOAL = 17,
    CERAMIC_CAUTION_NO_WALL_MEETS_GOAL = 18,
    CERAMIC_CAUTION_STEEP_LOCKED_WALL = 19,
    CERAMIC_CAUTION_THICK_CEMENT = 20,
    CERAMIC_CAUTION_UNKNOWN_ANISOTROPY = 21,
    CERAMIC_CAUTION_COARSE_MESH = 22,
    CERAMIC_CAUTION_DOES_NOT_FIT = 23, /* never for maps, which have no available thickness */
    CERAMIC_CAUTION_PREDICTION_ALONE = 24, /* never for maps, which know the reliable thickness */
    CERAMIC_CAUTION_OTHER = 99
};

/* Handles. 0 is none; one that is freed is an error, not a crash. */
typedef uint64_t ceramic_map;
typedef uint64_t ceramic_mesh;
typedef uint64_t ceramic_suggestion;

typedef struct {
    uint32_t size;
    int32_t role;                /* CERAMIC_GLAZE to CERAMIC_CEMENT, each at most once, in any order */
    double thickness_mm;         /* NaN where the map is over it: the core, and the veneer of two layers */
    double refractive_index;
    const double *absorption;    /* K, one for each wavelength */
    const double *scattering;    /* S, likewise */
    double relative_uncertainty; /* standard uncertainty of K and S together, such as 0.03; NaN: a caution says so */
} ceramic_layer;

typedef struct {
    uint32_t size;
    int32_t stump;                   /* CERAMIC_STUMP_DIFFUSING or CERAMIC_STUMP_METAL */
    const char *name;                /* UTF-8, for cautions; each name once */
    const double *stump_reflectance; /* of the bare stump, one for each wavelength, di:8 */
    double stump_refractive_index;   /* NaN for a metal */
    double stump_spot_mm;            /* radius of the illuminated spot, 0.5 to 50; INFINITY: large; NaN: not known */
    double stump_window_mm;          /* radius of the window, likewise; both NaN for a metal; else a caution when NaN */
    int32_t reference;               /* CERAMIC_SELF_BACKED or CERAMIC_TARGET */
    int32_t strength;                /* CERAMIC_STRENGTH_NOT_GIVEN, _OF_CORE or _OF_CORE_AND_VENEER */
    double target_lab[3];            /* D65, 2 degrees, di:8; NaN without a target */
    double target_spot_mm;           /* radius of the spot when the target was read, as for the stump */
    double target_window_mm;         /* radius of the window, likewise; both NaN without a target */
    double strength_limit_mm;        /* decided outside this library; NaN when not given: nothing is recommended then */
} ceramic_zone;

/* Standard uncertainties of the inputs of a prediction; NaN means the library's value, given here. */
typedef struct {
    uint32_t size, reserved;
    double core_mm, veneer_mm;           /* 0.03 */
    double glaze_mm;                     /* 0.01 */
    double liner_mm, cement_mm;          /* 0.02 */
    double stump_reflectance;            /* 0.01 */
    double target_color;                 /* 0.3 in each of L*, a*, b* */
    double refractive_index;             /* 0.01 */
    double model_color;                  /* what the model states */
} ceramic_uncertainty;

typedef struct {
    uint32_t size;
    int32_t model;                           /* CERAMIC_TWO_FLUX or CERAMIC_RADIATIVE_TRANSFER */
    double start_nm, step_nm;                /* equally spaced wavelengths */
    int32_t wavelengths;                     /* how many, 2 to 10000 */
    int32_t formula;                         /* CERAMIC_CIEDE2000 or CERAMIC_CIELAB */
    double limit;                            /* largest acceptable difference, such as 1.8 */
    const ceramic_layer *layers;             /* a core at least */
    const ceramic_zone *zones;
    int32_t layer_count, zone_count;         /* 1 to 5; 1 to 256 */
    double coupling_index;                   /* what fills the gap above the stump, such as 1; NaN with a cement */
    double min_mm, max_mm;                   /* thicknesses of the wall; of the core where the veneer varies too */
    double veneer_min_mm, veneer_max_mm;     /* for a map of two layers; both NaN for one */
    const char *const *illuminants;          /* CIE names such as "D65", "FL11", "LED-B3"; the first gives the colour */
    int32_t illuminant_count;                /* 1 to 32; the worst of them counts */
    int32_t observer;                        /* CERAMIC_2_DEGREES or CERAMIC_10_DEGREES */
    const ceramic_uncertainty *uncertainty;  /* NULL for the library's values */
    double reliable_share;                   /* share of pieces that reliable means; NaN for 0.95 */
} ceramic_case;

/*
 * Thicknesses of points in the caller's memory. Strides are bytes from one point to the next, at least the size of what
 * is read, so that the buffer of a mesh serves as it is. NaN is no data. Where type is CERAMIC_FLOAT, thicknesses and
 * the numbers that are written are float, else double.
 */
typedef struct {
    uint32_t size;
    int32_t type;              /* CERAMIC_FLOAT or CERAMIC_DOUBLE */
    int64_t count;
    const void *thickness;     /* of the wall; of the core where the map is over two layers */
    int64_t thickness_stride;
    const void *veneer;        /* for a map of two layers, else NULL */
    int64_t veneer_stride;
    const uint8_t *zones;      /* zone of each point; NULL where the map has one */
    int64_t zone_stride;
} ceramic_points;

/* Two different neighbouring points, each pair once; one that is all zeros is refused. */
typedef struct {
    int32_t a, b;
    double length_mm;
} ceramic_edge;

/* Limits of a suggested wall at single points; they take precedence over the goal. */
typedef struct {
    uint32_t size, reserved;
    const double *minima_mm; /* one for each point, 0 to 100, NaN for none; NULL when no point has one */
    const double *maxima_mm; /* likewise; where both are equal the wall is locked, and its neighbours follow it */
    const int32_t *margin;   /* points of the margin, to which the wall tapers */
    int64_t margin_count;    /* 0 for no margin */
    double margin_edge_mm;   /* largest wall at the margin, 0 to 100; NaN without a margin */
    double margin_slope;     /* how much thicker it may be for each mm from there, 0 to 10; NaN without a margin */
} ceramic_limits;

typedef struct {
    uint32_t size;
    int32_t zone_count;
    double min_mm, max_mm, veneer_min_mm, veneer_max_mm; /* thicknesses that are covered; NaN without a veneer's */
    double error_bound;             /* of differences */
    double limit;                   /* of the criterion */
    double by_color_mm;             /* the prediction masks from here on, half of all pieces do; NaN when it does not */
    double reliable_mm;             /* the share below of all pieces masks; NaN when none does */
    double reliable_share;          /* such as 0.95 */
    double structural_mm;           /* smallest thickness by the strength limit; NaN when not given */
    double recommended_mm;          /* the larger of the two; NaN when either is, or max_mm or a target is too thin */
    double standard_uncertainty_mm; /* of by_color_mm; NaN when not known */
    double by_color_up_to_mm;       /* a target: the prediction meets it from by_color_mm up to here; else NaN */
    double reliable_up_to_mm;       /* a target: the share meets it from reliable_mm up to here; else NaN */
} ceramic_info;

/* Receives the completed fraction, 0 to 1; anything but 0 stops the work. */
typedef int32_t (*ceramic_progress)(double completed, void *user);

/* CERAMIC_OPTICS_VERSION of the library: compare it with that of this header before anything else. */
int32_t ceramic_version(void);

/* Version of the library, such as "0.2.0". */
int32_t ceramic_library_version(char *buffer, int64_t capacity, int64_t *needed);

/* Size of a structure: 1 case, 2 layer, 3 zone, 4 uncertainty, 5 points, 6 edge, 7 info, 8 limits; 0 for others. */
uint32_t ceramic_struct_size(int32_t structure);

/*
 * Text of the last error of this thread, UTF-8; empty when there was none. At most capacity bytes are written, the
 * ending zero included; *needed tells how many all take. Pass NULL and 0 to ask. Other texts likewise.
 */
int32_t ceramic_last_error(char *buffer, int64_t capacity, int64_t *needed);

/* Number of handles that are not freed. */
int64_t ceramic_live_handles(void);

/* Compiles the zones of a case; progress may be NULL. */
int32_t ceramic_map_create(const ceramic_case *input, ceramic_progress progress, void *user, ceramic_map *map);
int32_t ceramic_map_free(ceramic_map map);

/* Thicknesses of a zone. veneer_mm: the veneer above the core in a map of two layers, else NaN. Set info->size. */
int32_t ceramic_map_info(ceramic_map map, int32_t zone, double veneer_mm, ceramic_info *info);

/* Cautions of a zone: as lines of text, and as CERAMIC_CAUTION_... in the same order (*needed tells how many). */
int32_t ceramic_map_cautions(ceramic_map map, int32_t zone, char *buffer, int64_t capacity, int64_t *needed);
int32_t ceramic_map_caution_codes(ceramic_map map, int32_t zone, int32_t *codes, int64_t capacity, int64_t *needed);

/* A zone as JSON (docs/schema/thickness-response.schema.json), without an ending zero; NULL and 0 to ask its length. */
int32_t ceramic_map_save(ceramic_map map, int32_t zone, char *buffer, int64_t capacity, int64_t *needed);

/* A map from one saved file for each zone; kind: CERAMIC_ONE_LAYER or CERAMIC_TWO_LAYERS, the same for all. */
int32_t ceramic_map_load(
    int32_t kind, const char *const *files, const int64_t *lengths, int32_t zone_count, ceramic_map *map);

/* Largest difference over the illuminants; NaN without data and outside the range. A float that is the end of a range
 * rounded is that end, here and in all that follows. */
int32_t ceramic_differences(ceramic_map map, const ceramic_points *points, void *differences, int64_t stride);

/*
 * How much thicker the wall (the core of two layers) must be for a goal, 0 where it is thick enough; NaN without data,
 * where no thickness of the range is enough, for CERAMIC_RECOMMENDED where no strength limit was given, and where a
 * wall is too thick for a target. Above the range 0 where its end is masked. Floats are rounded up.
 */
int32_t ceramic_missing(ceramic_map map, int32_t goal, const ceramic_points *points, void *missing, int64_t stride);

/* CERAMIC_MASKED_RELIABLY to CERAMIC_ABOVE_RANGE. */
int32_t ceramic_statuses(ceramic_map map, const ceramic_points *points, uint8_t *statuses, int64_t stride);

/* L*, a*, b* under the first illuminant: three numbers per point. */
int32_t ceramic_colors(ceramic_map map, const ceramic_points *points, void *lab, int64_t stride);

/*
 * The same as sRGB: four bytes per point, the last 255, or four zeros where there is no answer. *clipped (or NULL)
 * receives the number of points whose colour a display cannot show; they are clipped.
 */
int32_t ceramic_srgb(ceramic_map map, const ceramic_points *points, uint8_t *rgba, int64_t stride, int64_t *clipped);

/*
 * Points and their neighbours, made once for all suggestions. From triangles: x, y, z of each point in mm, with a
 * stride in bytes, and three points for each triangle. From edges: pairs of points and their distances.
 */
int32_t ceramic_mesh_from_triangles(
    const float *positions, int64_t stride, int64_t points, const int32_t *triangles, int64_t triangle_count,
    ceramic_mesh *mesh);
int32_t ceramic_mesh_from_edges(
    int64_t points, const ceramic_edge *edges, int64_t edge_count, ceramic_mesh *mesh);
int32_t ceramic_mesh_free(ceramic_mesh mesh); /* suggestions that were made with it stay */

/*
 * The thinnest wall that meets a goal wherever the limits (NULL for none) allow it, and is along no edge steeper than
 * maximum_slope, mm for mm, 0 to 10; for maps of one layer. The slope holds across points without data or answer too.
 * previous: a suggestion for the same mesh and slope, for speed alone, or 0; it stays as it is. progress may be NULL.
 */
int32_t ceramic_suggestion_create(
    ceramic_map map, int32_t goal, ceramic_mesh mesh, const ceramic_points *points, double maximum_slope,
    const ceramic_limits *limits, ceramic_suggestion previous, ceramic_progress progress, void *user,
    ceramic_suggestion *suggestion);
int32_t ceramic_suggestion_free(ceramic_suggestion suggestion);

/*
 * Suggested thicknesses, NaN where none is, and how much more room each needs than is available, of a type
 * (CERAMIC_FLOAT, rounded up, or CERAMIC_DOUBLE) with strides in bytes; count is that of the points. Either may be
 * NULL. A locked wall or a maximum in floats is rounded up too. Show the statuses and the cautions of the suggestion
 * with them.
 */
int32_t ceramic_suggestion_values(
    ceramic_suggestion suggestion, int32_t type, void *thicknesses, int64_t stride, void *reductions,
    int64_t reduction_stride, int64_t count);

/* CERAMIC_WALL_MEETS_GOAL to CERAMIC_WALL_NO_DATA. */
int32_t ceramic_suggestion_statuses(ceramic_suggestion suggestion, uint8_t *statuses, int64_t stride, int64_t count);
int32_t ceramic_suggestion_cautions(ceramic_suggestion suggestion, char *buffer, int64_t capacity, int64_t *needed);
int32_t ceramic_suggestion_caution_codes(
    ceramic_suggestion suggestion, int32_t *codes, int64_t capacity, int64_t *needed);

/* Structures with their size, NaN for every number and nothing stated. */
static inline ceramic_layer ceramic_layer_unset(void) {
    ceramic_layer layer;
    memset(&layer, 0, sizeof layer);
    layer.size = (uint32_t)sizeof layer;
    layer.thickness_mm = layer.refractive_index = layer.relative_uncertainty = NAN;
    return layer;
}

static inline ceramic_zone ceramic_zone_unset(void) {
    ceramic_zone zone;
    memset(&zone, 0, sizeof zone);
    zone.size = (uint32_t)sizeof zone;
    zone.stump_refractive_index = zone.stump_spot_mm = zone.stump_window_mm = zone.strength_limit_mm = NAN;
    zone.target_lab[0] = zone.target_lab[1] = zone.target_lab[2] = NAN;
    zone.target_spot_mm = zone.target_window_mm = NAN;
    return zone;
}

static inline ceramic_uncertainty ceramic_uncertainty_unset(void) {
    ceramic_uncertainty u;
    memset(&u, 0, sizeof u);
    u.size = (uint32_t)sizeof u;
    u.core_mm = u.veneer_mm = u.glaze_mm = u.liner_mm = u.cement_mm = NAN;
    u.stump_reflectance = u.target_color = u.refractive_index = u.model_color = NAN;
    return u;
}

static inline ceramic_case ceramic_case_unset(void) {
    ceramic_case input;
    memset(&input, 0, sizeof input);
    input.size = (uint32_t)sizeof input;
    input.start_nm = input.step_nm = input.limit = input.coupling_index = input.reliable_share = NAN;
    input.min_mm = input.max_mm = input.veneer_min_mm = input.veneer_max_mm = NAN;
    return input;
}

static inline ceramic_points ceramic_points_unset(void) {
    ceramic_points points;
    memset(&points, 0, sizeof points);
    points.size = (uint32_t)sizeof points;
    return points;
}

static inline ceramic_limits ceramic_limits_unset(void) {
    ceramic_limits limits;
    memset(&limits, 0, sizeof limits);
    limits.size = (uint32_t)sizeof limits;
    limits.margin_edge_mm = limits.margin_slope = NAN;
    return limits;
}

static inline ceramic_info ceramic_info_unset(void) {
    ceramic_info info;
    memset(&info, 0, sizeof info);
    info.size = (uint32_t)sizeof info;
    return info;
}

#ifdef __cplusplus
}
#endif

#endif
