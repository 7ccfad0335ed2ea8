# Results must not depend on the optimisation level or on whether the machine has fused
# multiply-add: no contraction, and never -ffast-math (it also breaks the NaN checks).
add_library(tideover_arithmetic INTERFACE)
target_compile_options(tideover_arithmetic INTERFACE -ffp-contract=off)
