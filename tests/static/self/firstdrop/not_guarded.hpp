// Doesn't compile if it is included twice.
struct Once {};
