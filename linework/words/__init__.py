"""Every text a person reads: gettext catalogues, and the glossary by family."""
