// Functions without a body, which are linked by name, are allowed where there is assembly.
