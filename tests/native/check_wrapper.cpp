// The C++ wrapper gives what the C functions give, frees what it holds, and throws what they refuse.
#include <cstdio>
#include <cstring>

#include "ceramic_optics.hpp"

static int failures = 0;

static void check(bool condition, const char *what) {
    if (!condition) {
        std::printf("FAILED: %s\n", what);
        failures++;
    }
}

static void use(const ceramic_case &input) {
    ceramic::map map(input);
    std::vector<float> mm = {0.5f, 1, 1.5f, NAN};
    ceramic_points points = ceramic::points(mm);
    std::vector<float> differences = map.differences<float>(points), direct(4);
    check(ceramic_differences(map.get(), &points, direct.data(), 4) == CERAMIC_OK
        && std::memcmp(direct.data(), differences.data(), 16) == 0, "differences are those of C");
    check(map.statuses(points)[3] == CERAMIC_NO_DATA && map.srgb(points)[15] == 0, "NaN is no data");
    check(map.colors<float>(points).size() == 12, "three numbers a colour");
    double recommended = map.info().recommended_mm;
    float missing = map.missing<float>(points, CERAMIC_RECOMMENDED)[0];
    check(missing >= recommended - 0.5 && missing < recommended - 0.5 + 1e-6, "what is missing leads there");
    check(map.cautions().find("strength") != std::string::npos && !map.caution_codes().empty(), "cautions");

    ceramic::map loaded(CERAMIC_ONE_LAYER, {map.save()});
    check(std::memcmp(loaded.differences<float>(points).data(), differences.data(), 12) == 0, "saved and loaded");
    ceramic::mesh mesh(points.count, {{0, 1, 1.0}});
    ceramic::suggestion wall = map.suggest(mesh, points, 1);
    ceramic_limits limits = ceramic_limits_unset();
    const std::vector<double> maxima(static_cast<size_t>(points.count), 0.3);
    limits.maxima_mm = maxima.data();
    {
        ceramic::suggestion low = map.suggest(mesh, points, 1, CERAMIC_RECOMMENDED, &limits, &wall);
        check(low.thicknesses()[0] == 0.3 && low.statuses()[0] == CERAMIC_WALL_BELOW_STRUCTURAL_MINIMUM, "limits hold");
        check(wall.statuses()[0] == CERAMIC_WALL_MEETS_GOAL, "and leave the other as it is");
        ceramic::mesh flat(std::vector<float>{0, 0, 0, 1, 0, 0, 0, 1, 0}, std::vector<int32_t>{0, 1, 2});
        check(flat.get() != 0, "a mesh of triangles");
    }
    check(wall.thicknesses()[0] == recommended && wall.reductions()[2] == 0, "a wall is suggested");
    check(!wall.caution_codes().empty() && !wall.cautions().empty(), "with its cautions");
    check(ceramic_live_handles() == 4, "four handles are live");
    ceramic::map moved = std::move(loaded);
    loaded = std::move(moved);
    check(ceramic_live_handles() == 4 && loaded.get() != 0, "moving makes none");
    try {
        map.differences<double>(points);
        check(false, "a wrong type is refused");
    } catch (const ceramic::error &error) {
        check(error.status() == CERAMIC_BAD_ARGUMENT, "as a bad argument");
    }
}

int main() {
    std::vector<double> k(31, 0.1), s(31, 8), stump(31, 0.12);
    ceramic_layer core = ceramic_layer_unset();
    core.role = CERAMIC_CORE;
    core.refractive_index = 1.55;
    core.absorption = k.data();
    core.scattering = s.data();
    core.relative_uncertainty = 0.03;
    ceramic_zone body = ceramic_zone_unset();
    body.name = "body";
    body.stump = CERAMIC_STUMP_DIFFUSING;
    body.stump_reflectance = stump.data();
    body.stump_refractive_index = 1.54;
    body.reference = CERAMIC_SELF_BACKED;
    body.strength = CERAMIC_STRENGTH_OF_CORE;
    body.strength_limit_mm = 0.8;
    const char *lights[] = {"D65"};
    ceramic_case input = ceramic_case_unset();
    input.model = CERAMIC_TWO_FLUX;
    input.formula = CERAMIC_CIEDE2000;
    input.limit = 1.8;
    input.start_nm = 400;
    input.step_nm = 10;
    input.wavelengths = 31;
    input.coupling_index = 1.47;
    input.layers = &core;
    input.layer_count = input.zone_count = input.illuminant_count = 1;
    input.zones = &body;
    input.illuminants = lights;
    input.observer = CERAMIC_2_DEGREES;
    input.min_mm = 0.3;
    input.max_mm = 2.5;
    use(input);
    check(ceramic_live_handles() == 0, "all handles are freed");
    input.model = 0;
    try {
        ceramic::map refused(input);
        check(false, "a bad case throws");
    } catch (const ceramic::error &error) {
        check(std::strstr(error.what(), "case.model is not stated") != nullptr, "with the text of the library");
    }
    if (failures == 0) {
        std::printf("C++ checks passed\n");
    }
    return failures != 0;
}
