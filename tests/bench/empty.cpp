// Does nothing, but is linked to the same libraries as the program. Its time is the least that a
// start of the program can cost.
int main() {
  return 0;
}
