"""The room of the educator: who may teach, who lapses, what fails first."""
