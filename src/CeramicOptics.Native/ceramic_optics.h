/*
 * CeramicOptics for C: how well a wall of ceramic hides the stump, for many points with a thickness each.
 *
 * Every function returns CERAMIC_OK or another status; the text of the last error of the calling thread is that of ceramic_last_error.
 * Functions may be called from several threads at once. Lengths are in mm, wavelengths in nm, coefficients in 1/mm.
 *
 * The answers are about colour alone. They do not say whether a wall is strong enough, nor how much tooth may be removed:
 * show the cautions of ceramic_response_cautions with every thickness, and leave the decision to licensed practice and local rules.
 */
#ifndef CERAMIC_OPTICS_H
#define CERAMIC_OPTICS_H

#include <stdint.h>

#ifdef __cplusplus
extern "C" {
#endif

enum { CERAMIC_OK = 0, CERAMIC_BAD_ARGUMENT = 1, CERAMIC_BAD_FILE = 2, CERAMIC_FAILED = 3 };

/* Statuses of points. */
enum { CERAMIC_MASKED_BY_COLOR = 0, CERAMIC_SHOWS = 1, CERAMIC_BELOW_STRUCTURAL_MINIMUM = 2, CERAMIC_NO_DATA = 3, CERAMIC_OUT_OF_RANGE = 4 };

/* What colours are compared with. */
enum { CERAMIC_SELF_BACKED = 0, CERAMIC_TARGET = 1 };

/* Difference formulas. */
enum { CERAMIC_CIEDE2000 = 0, CERAMIC_CIELAB = 1 };

/* The theory by which K and S were found, and for which alone they are good. 0 is refused: it is not stated. */
enum { CERAMIC_TWO_FLUX = 1, CERAMIC_RADIATIVE_TRANSFER = 2 };

/* What layers are for. 0 is refused. */
enum { CERAMIC_GLAZE = 1, CERAMIC_VENEER = 2, CERAMIC_CORE = 3, CERAMIC_LINER = 4, CERAMIC_CEMENT = 5 };

/* Which layers count towards a strength limit. */
enum { CERAMIC_CORE_ALONE = 0, CERAMIC_CORE_AND_VENEER = 1 };

/* Which minimum thickness is asked for; a strength limit that was given counts in all of them. */
enum { CERAMIC_RECOMMENDED = 0, CERAMIC_RELIABLE = 1, CERAMIC_BY_COLOR = 2 };

/* A compiled response; 0 is none. */
typedef uint64_t ceramic_response;

typedef struct {
    int32_t role;                     /* CERAMIC_GLAZE to CERAMIC_CEMENT, each at most once, in any order */
    double thickness_mm;              /* ignored for CERAMIC_CORE: the wall varies */
    double refractive_index;
    const double *absorption;         /* K, one for each wavelength */
    const double *scattering;         /* S, likewise */
    double relative_uncertainty;      /* standard uncertainty of K and S together, such as 0.03; NaN when not known (a caution says so) */
} ceramic_layer;

typedef struct {
    double start_nm, step_nm;         /* equally spaced wavelengths */
    int32_t wavelengths;              /* how many */
    int32_t model;                    /* CERAMIC_TWO_FLUX or CERAMIC_RADIATIVE_TRANSFER */
    int32_t layer_count;              /* 1 to 5 */
    const ceramic_layer *layers;      /* a core at least */
    double coupling_index;            /* what fills the gap above the stump, such as 1 for air; ignored where there is a cement */
    const double *stump_reflectance;  /* reflectance factor of the bare stump, 0 to 1, di:8 */
    double stump_refractive_index;
    double min_mm, max_mm;            /* thicknesses of the wall (core and veneer) */
    int32_t reference;                /* CERAMIC_SELF_BACKED or CERAMIC_TARGET */
    double target_lab[3];             /* D65, 2 degrees, di:8; for CERAMIC_TARGET */
    int32_t formula;                  /* CERAMIC_CIEDE2000 or CERAMIC_CIELAB */
    double limit;                     /* largest acceptable difference, such as 1.8 */
    double strength_limit_mm;         /* decided outside this library; NaN when not given: then nothing is recommended */
    int32_t strength_scope;           /* CERAMIC_CORE_ALONE or CERAMIC_CORE_AND_VENEER */
} ceramic_case;

/* Uncertainties of thicknesses, cement film, stump, target and refractive indices are the defaults of the library (InputUncertainty). */

typedef struct {
    double min_mm, max_mm;            /* thicknesses that are covered */
    double error_bound;               /* of differences */
    double by_color_mm;               /* the prediction masks from here on, half of all pieces do; NaN when not masked */
    double reliable_mm;               /* the share below of all pieces masks; NaN when none does */
    double reliable_share;            /* such as 0.95 */
    double structural_mm;             /* smallest wall by the strength limit; NaN when not given */
    double recommended_mm;            /* the larger of the two; NaN when either is NaN or it is above max_mm */
    double standard_uncertainty_mm;   /* of by_color_mm; NaN when not known */
} ceramic_info;

/* Compiles a case under D65 with the 2 degree observer. */
int32_t ceramic_response_create(const ceramic_case *input, ceramic_response *response);

/* Reads a response that was saved as JSON (docs/schema/thickness-response.schema.json). */
int32_t ceramic_response_load(const char *utf8, int64_t length, ceramic_response *response);

int32_t ceramic_response_info(ceramic_response response, ceramic_info *info);

/* Cautions as UTF-8 lines. At most capacity bytes are written, the ending zero included; *needed tells how many all take. */
int32_t ceramic_response_cautions(ceramic_response response, char *buffer, int64_t capacity, int64_t *needed);

/* Frees a response. Freeing 0 or one that is gone is an error and does nothing. */
int32_t ceramic_response_free(ceramic_response response);

/* Largest difference at each thickness; NaN where the thickness is NaN or outside the range. */
int32_t ceramic_differences(ceramic_response response, const double *thickness_mm, double *differences, int64_t count);

/* The same from an interleaved buffer of count * stride floats, thickness at offset. */
int32_t ceramic_differences_interleaved(ceramic_response response, const float *buffer, int64_t stride, int64_t offset, float *differences, int64_t count);

/*
 * How much thicker the wall must be for a goal, 0 where it is thick enough; NaN without data, where no thickness of the range is enough, and
 * for CERAMIC_RECOMMENDED where no strength limit was given.
 */
int32_t ceramic_missing_thicknesses(
    ceramic_response response, int32_t goal, const double *thickness_mm, double *missing_mm, int64_t count);

int32_t ceramic_statuses(ceramic_response response, const double *thickness_mm, uint8_t *statuses, int64_t count);

/* L*, a*, b* at each thickness: 3 * count numbers. */
int32_t ceramic_colors(ceramic_response response, const double *thickness_mm, double *lab, int64_t count);

/* Text of the last error of this thread, as ceramic_response_cautions writes it; empty when there was none. */
int32_t ceramic_last_error(char *buffer, int64_t capacity, int64_t *needed);

#ifdef __cplusplus
}
#endif

#endif
