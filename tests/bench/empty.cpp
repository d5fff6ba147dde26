// Nothing at all, linked to what the program is linked to: the least that a start can cost.
int main() {
  return 0;
}
