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
enum { CERAMIC_MASKED = 0, CERAMIC_SHOWS = 1, CERAMIC_BELOW_STRUCTURAL_MINIMUM = 2, CERAMIC_NO_DATA = 3, CERAMIC_OUT_OF_RANGE = 4 };

/* What colours are compared with. */
enum { CERAMIC_SELF_BACKED = 0, CERAMIC_TARGET = 1 };

/* Difference formulas. */
enum { CERAMIC_CIEDE2000 = 0, CERAMIC_CIELAB = 1 };

/* A compiled response; 0 is none. */
typedef uint64_t ceramic_response;

typedef struct {
    double start_nm, step_nm;         /* equally spaced wavelengths */
    int32_t wavelengths;              /* how many */
    int32_t layers;                   /* from the surface down to the stump */
    const double *absorption;         /* K, layer after layer */
    const double *scattering;         /* S, likewise */
    const double *refractive_index;   /* one a layer */
    const double *thickness_mm;       /* one a layer; that of the variable layer is ignored */
    const double *stump_reflectance;  /* reflectance factor of the bare stump, 0 to 1, di:8 */
    double stump_refractive_index;
    int32_t variable_layer;           /* 0 is the surface */
    double min_mm, max_mm;            /* its thicknesses */
    int32_t reference;                /* CERAMIC_SELF_BACKED or CERAMIC_TARGET */
    double target_lab[3];             /* D65, 2 degrees; for CERAMIC_TARGET */
    int32_t formula;                  /* CERAMIC_CIEDE2000 or CERAMIC_CIELAB */
    double limit;                     /* largest difference that is good enough, such as 1.8 */
    double structural_minimum_mm;     /* decided outside this library; NaN when not known */
} ceramic_case;

typedef struct {
    double min_mm, max_mm;            /* thicknesses that are covered */
    double error_bound;               /* of differences */
    double optical_minimum_mm;        /* NaN when not masked */
    double recommended_minimum_mm;    /* with strength; NaN when there is none in the range */
    double standard_uncertainty_mm;   /* of the optical minimum; NaN when not known */
} ceramic_info;

/* Compiles a case under D65 with the 2 degree observer, in milliseconds. */
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

/* How much thicker the wall must be, 0 where it is thick enough; NaN without data or where no thickness of the range is enough. */
int32_t ceramic_missing_thicknesses(ceramic_response response, const double *thickness_mm, double *missing_mm, int64_t count);

int32_t ceramic_statuses(ceramic_response response, const double *thickness_mm, uint8_t *statuses, int64_t count);

/* L*, a*, b* at each thickness: 3 * count numbers. */
int32_t ceramic_colors(ceramic_response response, const double *thickness_mm, double *lab, int64_t count);

/* Text of the last error of this thread, as ceramic_response_cautions writes it; empty when there was none. */
int32_t ceramic_last_error(char *buffer, int64_t capacity, int64_t *needed);

#ifdef __cplusplus
}
#endif

#endif
