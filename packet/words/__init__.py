"""All words of templates/, read and filled, and findings in words. Uses calc."""
