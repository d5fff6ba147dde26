// Included twice, it does not compile.
struct Once {};
