// CeramicOptics for C++17: handles that free themselves, exceptions, vectors. ceramic_optics.h describes all functions.
#ifndef CERAMIC_OPTICS_HPP
#define CERAMIC_OPTICS_HPP

#include <stdexcept>
#include <string>
#include <type_traits>
#include <utility>
#include <vector>

#include "ceramic_optics.h"

namespace ceramic {

// What a function of the library refused or could not do.
class error : public std::runtime_error {
public:
    error(int32_t status, const std::string &text) : std::runtime_error(text), status_(status) {}
    int32_t status() const noexcept { return status_; }

private:
    int32_t status_;
};

namespace detail {

// A text of the library: asked for its length, then for itself.
template <class Ask> std::string text(Ask ask, bool ends_with_zero = true);

inline void check(int32_t status) {
    if (status != CERAMIC_OK) {
        throw error(status, text([](char *to, int64_t room, int64_t *needed) {
            return ceramic_last_error(to, room, needed);
        }));
    }
}

template <class Ask> std::string text(Ask ask, bool ends_with_zero) {
    int64_t needed = 0;
    check(ask(nullptr, 0, &needed));
    std::string made(static_cast<size_t>(needed), '\0');
    check(ask(made.data(), needed, &needed));
    if (ends_with_zero) {
        made.pop_back();
    }
    return made;
}

template <class Ask> std::vector<int32_t> codes(Ask ask) {
    int64_t needed = 0;
    check(ask(nullptr, 0, &needed));
    std::vector<int32_t> made(static_cast<size_t>(needed));
    check(ask(made.data(), needed, &needed));
    return made;
}

// The one owner of a handle.
template <int32_t (*Free)(uint64_t)> class handle {
public:
    handle() = default;
    explicit handle(uint64_t number) noexcept : number_(number) {}
    handle(handle &&other) noexcept : number_(std::exchange(other.number_, 0)) {}
    handle &operator=(handle &&other) noexcept {
        std::swap(number_, other.number_);
        return *this;
    }
    handle(const handle &) = delete;
    handle &operator=(const handle &) = delete;
    ~handle() {
        if (number_ != 0) {
            Free(number_);
        }
    }
    uint64_t get() const noexcept { return number_; }

private:
    uint64_t number_ = 0;
};

template <class Number> constexpr int32_t type() {
    static_assert(std::is_same_v<Number, float> || std::is_same_v<Number, double>, "float or double");
    return std::is_same_v<Number, float> ? CERAMIC_FLOAT : CERAMIC_DOUBLE;
}

} // namespace detail

// Packed thicknesses of points that the caller keeps; fill the members for interleaved ones, veneers and zones.
template <class Number> ceramic_points points(const std::vector<Number> &thicknesses) {
    ceramic_points made = ceramic_points_unset();
    made.type = detail::type<Number>();
    made.count = static_cast<int64_t>(thicknesses.size());
    made.thickness = thicknesses.data();
    made.thickness_stride = sizeof(Number);
    return made;
}

inline void require_version() {
    if (ceramic_version() != CERAMIC_OPTICS_VERSION) {
        throw error(CERAMIC_FAILED, "The library's interface version is not that of the header.");
    }
}

// Points and their neighbours, made once for all suggestions.
class mesh {
public:
    mesh(int64_t points, const std::vector<ceramic_edge> &edges) {
        require_version();
        ceramic_mesh number = 0;
        detail::check(ceramic_mesh_from_edges(points, edges.data(), static_cast<int64_t>(edges.size()), &number));
        handle_ = handle(number);
    }

    // Three coordinates a point, three points a triangle.
    mesh(const std::vector<float> &positions, const std::vector<int32_t> &triangles) {
        require_version();
        if (positions.size() % 3 != 0 || triangles.size() % 3 != 0) {
            throw error(CERAMIC_BAD_ARGUMENT, "positions and triangles must come in threes.");
        }
        ceramic_mesh number = 0;
        detail::check(ceramic_mesh_from_triangles(
            positions.data(), 3 * sizeof(float), static_cast<int64_t>(positions.size() / 3), triangles.data(),
            static_cast<int64_t>(triangles.size() / 3), &number));
        handle_ = handle(number);
    }

    ceramic_mesh get() const noexcept { return handle_.get(); }

private:
    using handle = detail::handle<ceramic_mesh_free>;

    handle handle_;
};

// A wall that meets a goal, with its cautions.
class suggestion {
public:
    explicit suggestion(ceramic_suggestion number, int64_t count) : handle_(number), count_(count) {}

    std::vector<double> thicknesses() const { return values(true); }
    std::vector<double> reductions() const { return values(false); }
    std::vector<uint8_t> statuses() const {
        std::vector<uint8_t> made(static_cast<size_t>(count_));
        detail::check(ceramic_suggestion_statuses(handle_.get(), made.data(), 1, count_));
        return made;
    }
    ceramic_suggestion get() const noexcept { return handle_.get(); }
    std::string cautions() const {
        return detail::text([this](char *to, int64_t room, int64_t *needed) {
            return ceramic_suggestion_cautions(handle_.get(), to, room, needed);
        });
    }
    std::vector<int32_t> caution_codes() const {
        return detail::codes([this](int32_t *to, int64_t room, int64_t *needed) {
            return ceramic_suggestion_caution_codes(handle_.get(), to, room, needed);
        });
    }

private:
    std::vector<double> values(bool thicknesses) const {
        std::vector<double> made(static_cast<size_t>(count_));
        const int64_t step = sizeof(double);
        detail::check(ceramic_suggestion_values(
            handle_.get(), CERAMIC_DOUBLE, thicknesses ? made.data() : nullptr, step,
            thicknesses ? nullptr : made.data(), step, count_));
        return made;
    }

    detail::handle<ceramic_suggestion_free> handle_;
    int64_t count_;
};

// A map over the zones of a case.
class map {
public:
    explicit map(const ceramic_case &input, ceramic_progress progress = nullptr, void *user = nullptr) {
        require_version();
        ceramic_map number = 0;
        detail::check(ceramic_map_create(&input, progress, user, &number));
        handle_ = handle(number);
    }

    // From one saved zone each.
    map(int32_t kind, const std::vector<std::string> &files) {
        require_version();
        std::vector<const char *> texts;
        std::vector<int64_t> lengths;
        for (const std::string &file : files) {
            texts.push_back(file.data());
            lengths.push_back(static_cast<int64_t>(file.size()));
        }
        ceramic_map number = 0;
        detail::check(ceramic_map_load(
            kind, texts.data(), lengths.data(), static_cast<int32_t>(files.size()), &number));
        handle_ = handle(number);
    }

    ceramic_map get() const noexcept { return handle_.get(); }

    ceramic_info info(int32_t zone = 0, double veneer_mm = NAN) const {
        ceramic_info made = ceramic_info_unset();
        detail::check(ceramic_map_info(get(), zone, veneer_mm, &made));
        return made;
    }
    std::string cautions(int32_t zone = 0) const {
        return detail::text([&](char *to, int64_t room, int64_t *needed) {
            return ceramic_map_cautions(get(), zone, to, room, needed);
        });
    }
    std::vector<int32_t> caution_codes(int32_t zone = 0) const {
        return detail::codes([&](int32_t *to, int64_t room, int64_t *needed) {
            return ceramic_map_caution_codes(get(), zone, to, room, needed);
        });
    }
    std::string save(int32_t zone = 0) const {
        return detail::text(
            [&](char *to, int64_t room, int64_t *needed) { return ceramic_map_save(get(), zone, to, room, needed); },
            false);
    }

    // Answers of the type of the points.
    template <class Number> std::vector<Number> differences(const ceramic_points &points) const {
        return numbers<Number>(points, 1, ceramic_differences);
    }
    template <class Number> std::vector<Number> colors(const ceramic_points &points) const {
        return numbers<Number>(points, 3, ceramic_colors);
    }
    template <class Number> std::vector<Number> missing(const ceramic_points &points, int32_t goal) const {
        return numbers<Number>(points, 1, [goal](auto number, auto at, auto to, auto stride) {
            return ceramic_missing(number, goal, at, to, stride);
        });
    }
    std::vector<uint8_t> statuses(const ceramic_points &points) const {
        std::vector<uint8_t> made(static_cast<size_t>(points.count));
        detail::check(ceramic_statuses(get(), &points, made.data(), 1));
        return made;
    }
    std::vector<uint8_t> srgb(const ceramic_points &points) const {
        std::vector<uint8_t> made(4 * static_cast<size_t>(points.count));
        detail::check(ceramic_srgb(get(), &points, made.data(), 4, nullptr));
        return made;
    }
    // limits may be null; previous, for the same mesh and slope, saves time.
    suggestion suggest(
        const mesh &surface, const ceramic_points &points, double maximum_slope, int32_t goal = CERAMIC_RECOMMENDED,
        const ceramic_limits *limits = nullptr, const suggestion *previous = nullptr) const {
        ceramic_suggestion number = 0;
        detail::check(ceramic_suggestion_create(
            get(), goal, surface.get(), &points, maximum_slope, limits, previous == nullptr ? 0 : previous->get(),
            nullptr, nullptr, &number));
        return suggestion(number, points.count);
    }

private:
    using handle = detail::handle<ceramic_map_free>;

    template <class Number, class Call>
    std::vector<Number> numbers(const ceramic_points &points, size_t width, Call call) const {
        if (points.type != detail::type<Number>()) {
            throw error(CERAMIC_BAD_ARGUMENT, "points.type is not that of the numbers asked for.");
        }
        std::vector<Number> made(width * static_cast<size_t>(points.count));
        detail::check(call(get(), &points, static_cast<void *>(made.data()), int64_t(width * sizeof(Number))));
        return made;
    }

    handle handle_;
};

} // namespace ceramic

#endif
