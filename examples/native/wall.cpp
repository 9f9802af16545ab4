// How thick a wall must be over a dark stump, and the colour of three walls. All constants are invented.
#include <cstdio>

#include "ceramic_optics.hpp"

int main() {
    std::vector<double> k(31, 0.1), s(31, 8), stump(31, 0.12), walls = {0.5, 1.0, 2.0};
    ceramic_layer core = ceramic_layer_unset();
    core.role = CERAMIC_CORE, core.refractive_index = 1.55, core.relative_uncertainty = 0.03;
    core.absorption = k.data(), core.scattering = s.data();
    ceramic_zone body = ceramic_zone_unset();
    body.name = "body", body.stump = CERAMIC_STUMP_DIFFUSING, body.reference = CERAMIC_SELF_BACKED;
    body.stump_reflectance = stump.data(), body.stump_refractive_index = 1.54;
    body.strength = CERAMIC_STRENGTH_OF_CORE, body.strength_limit_mm = 0.8;
    const char *lights[] = {"D65", "A"};
    ceramic_case crown = ceramic_case_unset();
    crown.model = CERAMIC_TWO_FLUX, crown.formula = CERAMIC_CIEDE2000, crown.limit = 1.8;
    crown.start_nm = 400, crown.step_nm = 10, crown.wavelengths = 31, crown.coupling_index = 1.47;
    crown.layers = &core, crown.layer_count = 1, crown.zones = &body, crown.zone_count = 1;
    crown.illuminants = lights, crown.illuminant_count = 2, crown.observer = CERAMIC_2_DEGREES;
    crown.min_mm = 0.3, crown.max_mm = 2.5;
    try {
        ceramic::map map(crown);
        std::printf("at least %.3f mm, for review\n%s\n", map.info().recommended_mm, map.cautions().c_str());
        std::vector<double> lab = map.colors<double>(ceramic::points(walls));
        for (size_t i = 0; i < walls.size(); i++) {
            std::printf("%.1f mm: L* %.2f, a* %.2f, b* %.2f\n", walls[i], lab[3 * i], lab[3 * i + 1], lab[3 * i + 2]);
        }
    } catch (const ceramic::error &refused) {
        return std::printf("%s\n", refused.what()), 1;
    }
}
