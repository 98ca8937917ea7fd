"""Fields that stand in sentences, and the tables that say what they hold."""
